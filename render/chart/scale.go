package chart

import (
	"math"
	"strconv"
)

// ticks returns round values from lo to hi, about as many as asked: steps of
// 1, 2 or 5 times a power of ten.
func ticks(lo, hi float64, about int) []float64 {
	step := step((hi - lo) / float64(max(about, 1)))
	if !(step > 0) || math.IsInf(step, 0) {
		return nil
	}
	list := []float64{}
	for i := math.Ceil(lo/step - 1e-9); i <= hi/step+1e-9 && len(list) < 100; i++ {
		list = append(list, i*step+0)
	}
	return list
}

// step returns the round step that is nearest above a rough one.
func step(rough float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range [...]float64{1, 2, 5} {
		if rough <= m*power*1.0001 {
			return m * power
		}
	}
	return 10 * power
}

// number prints a tick without noise.
func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6+0, 'f', -1, 64) // +0: no minus before zero
}

// top returns a round upper end of the y axis for values up to most.
func top(most float64) float64 {
	if !(most > 0) {
		return 1
	}
	s := step(most / 5)
	return s * math.Ceil(most/s-1e-9)
}
