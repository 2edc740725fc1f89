package bridge

import (
	"slices"
	"time"
)

// meter notes what the frames of the page cost: those of late, of which some
// may go without a picture.
type meter struct {
	cost     [meterFrames]time.Duration // of steps and picture together
	frames   int
	pictures int
	ticks    int
	steps    time.Duration
	draws    time.Duration
	dots     int // in the machine at the last picture
}

// meterFrames is how many frames are kept for the middle one: ten seconds.
const meterFrames = 600

// Meter is the same, for programs. Step and Draw are means over all frames,
// with and without a picture, ms; Tenth, Median and Most of the last ten seconds
// are of both together. Frames that come late hold more ticks than two.
type Meter struct {
	Frames   int     `json:"frames"`
	Pictures int     `json:"pictures"`
	Ticks    int     `json:"ticks"`
	Dots     int     `json:"dots"`
	Step     float64 `json:"step_ms"`
	Draw     float64 `json:"draw_ms"`
	Tenth    float64 `json:"tenth_ms"`
	Median   float64 `json:"median_ms"`
	Most     float64 `json:"most_ms"`
}

// add takes up a frame: what its steps cost and, if it has one, its picture.
func (m *meter) add(step, draw time.Duration, picture bool) {
	m.cost[m.frames%meterFrames] = step + draw
	m.frames++
	m.steps, m.draws = m.steps+step, m.draws+draw
	if picture {
		m.pictures++
	}
}

// read returns the meter's reading since the last and starts it anew.
func (m *meter) read() Meter {
	ms := func(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
	out := Meter{Frames: m.frames, Pictures: m.pictures, Ticks: m.ticks, Dots: m.dots}
	if m.frames > 0 {
		kept := m.cost[:min(m.frames, meterFrames)]
		slices.Sort(kept)
		n, all := len(kept), float64(m.frames)
		out.Step, out.Draw = ms(m.steps)/all, ms(m.draws)/all
		out.Tenth, out.Median, out.Most = ms(kept[n/10]), ms(kept[n/2]), ms(kept[n-1])
	}
	*m = meter{}
	return out
}
