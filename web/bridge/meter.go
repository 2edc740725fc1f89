package bridge

import (
	"runtime"
	"slices"
	"time"
)

// meter notes what the frames of the page cost in this program: the steps of the
// machine with their record, and the pictures.
type meter struct {
	frames, pictures, ticks int
	steps, draws            time.Duration
	tick, picture           sample
	dots                    int // in the machine at the last picture
}

// sample keeps the last of many durations.
type sample struct {
	kept [600]time.Duration
	n    int
}

func (s *sample) add(d time.Duration) {
	s.kept[s.n%len(s.kept)] = d
	s.n++
}

// at returns what a share of those kept do not exceed, ms.
func (s *sample) at(share float64) float64 {
	kept := s.kept[:min(s.n, len(s.kept))]
	if len(kept) == 0 {
		return 0
	}
	slices.Sort(kept)
	return ms(kept[int(share*float64(len(kept)-1))])
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

// Meter is the same, for programs, in ms: the means over all frames, with or
// without a picture, then what the best tenth and half of ticks and pictures
// stayed under. A frame that comes late holds more ticks than its two.
type Meter struct {
	Frames   int     `json:"frames"`
	Pictures int     `json:"pictures"`
	Ticks    int     `json:"ticks"`
	Dots     int     `json:"dots"`
	Step     float64 `json:"step_ms"`
	Draw     float64 `json:"draw_ms"`

	TickTenth     float64 `json:"tick_tenth_ms"`
	TickMedian    float64 `json:"tick_median_ms"`
	PictureTenth  float64 `json:"picture_tenth_ms"`
	PictureMedian float64 `json:"picture_median_ms"`

	Live float64 `json:"live_mb"` // memory in use after its garbage is collected, MB
	Took float64 `json:"took_mb"` // memory taken from the browser, MB
}

// memory returns the memory in use after its garbage is collected and what was
// taken from the browser, MB.
func memory() (live, took float64) {
	var stats runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&stats)
	return float64(stats.HeapAlloc) / 1e6, float64(stats.Sys) / 1e6
}

// stepped takes up ticks of one frame and what they cost.
func (m *meter) stepped(ticks int, cost time.Duration) {
	m.steps += cost
	m.ticks += ticks
	if ticks > 0 {
		m.tick.add(cost / time.Duration(ticks))
	}
}

// drew takes up a picture and what it cost.
func (m *meter) drew(cost time.Duration, dots int) {
	m.draws += cost
	m.pictures++
	m.picture.add(cost)
	m.dots = dots
}

// read returns the meter's reading since the last and starts it anew.
func (m *meter) read() Meter {
	frames := float64(max(m.frames, 1))
	out := Meter{
		Frames: m.frames, Pictures: m.pictures, Ticks: m.ticks, Dots: m.dots, Step: ms(m.steps) / frames, Draw: ms(m.draws) / frames,
		TickTenth: m.tick.at(0.1), TickMedian: m.tick.at(0.5), PictureTenth: m.picture.at(0.1), PictureMedian: m.picture.at(0.5),
	}
	out.Live, out.Took = memory()
	*m = meter{}
	return out
}
