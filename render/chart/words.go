package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"riddle/sim/ask/study"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// title names what is varied and the crop.
func title(w study.Sweep) string {
	effect := "grain loss"
	switch w.Field.Name {
	case "cylinder-speed", "concave-clearance", "grain-moisture", "bar-wear":
		effect = "loss and broken grain"
	case "lower-sieve":
		effect = "loss, foreign matter and returns"
	case "pre-sieve", "fan-speed", "upper-sieve", "green-weeds", "light-grain":
		effect = "loss and foreign matter"
	}
	return fmt.Sprintf("%s: %s by %s", capital(w.Base.Crop), effect, inText(w.Field.Label))
}

// basis says what the percentages of the lines are of.
func basis(list []show) string {
	text := "Loss, % of the grain that left the machine"
	for _, s := range list {
		switch first, _, tank := strings.Cut(s.Name, " in tank"); {
		case s.Name == header.Name:
			text += "; header and total, of the grain that stood"
		case tank:
			text += "; " + first + ", % of the tank sample"
		case s.Name == returned.Name:
			text += "; returns, % of the grain fed"
		}
	}
	return text
}

// withUnit labels the x axis.
func withUnit(f *setup.Field) string {
	switch f.Unit {
	case quantity.Ratio:
		return f.Label
	default:
		return f.Label + ", " + string(f.Unit)
	}
}

// circumstances lists crop, settings and conditions but for what is varied.
func circumstances(w study.Sweep) string {
	c := crop.Find(w.Base.Crop)
	settings, conditions := []string{}, []string{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if f == w.Field || f.Switch() || c == nil || !f.On(c) {
			continue
		}
		v := f.Get(&w.Base)
		text := inText(f.Label) + " " + f.Format(v)
		switch {
		case !f.Condition:
			settings = append(settings, text)
		case v != 0:
			conditions = append(conditions, text)
		}
	}
	return capital(w.Base.Crop) + ": " + strings.Join(settings, ", ") + ". Field: " + strings.Join(conditions, ", ") + "."
}

// inText is a label within a sentence; a word in capitals stays so.
func inText(label string) string {
	if len(label) > 1 && label[1] >= 'A' && label[1] <= 'Z' {
		return label
	}
	return strings.ToLower(label[:1]) + label[1:]
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// threeDigits rounds a value as it is read off a chart.
func threeDigits(v float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return v
	}
	return r
}

func short(v float64) string { return strconv.FormatFloat(math.Round(v*1000)/1000, 'g', 6, 64) }
