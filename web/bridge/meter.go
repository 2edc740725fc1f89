package bridge

import "time"

// meter sums up what the frames of the page cost.
type meter struct {
	steps, draws time.Duration
	most         time.Duration // of one frame
	frames       int           // in which the machine was drawn
	dots         int           // then in the machine
}

// Meter is the same, for programs: the mean of a frame and the dearest one, ms.
type Meter struct {
	Frames int     `json:"frames"`
	Dots   int     `json:"dots"`
	Step   float64 `json:"step_ms"`
	Draw   float64 `json:"draw_ms"`
	Most   float64 `json:"most_ms"`
}

func (m *meter) add(step, draw time.Duration, dots int) {
	m.steps, m.draws, m.most = m.steps+step, m.draws+draw, max(m.most, step+draw)
	m.frames++
	m.dots = dots
}

// read returns the meter's reading since the last and starts it anew.
func (m *meter) read() Meter {
	ms := func(d time.Duration) float64 {
		return float64(d) / float64(time.Millisecond) / float64(max(m.frames, 1))
	}
	out := Meter{Frames: m.frames, Dots: m.dots, Step: ms(m.steps), Draw: ms(m.draws), Most: float64(m.most) / float64(time.Millisecond)}
	*m = meter{}
	return out
}
