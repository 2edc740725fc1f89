package chart

import (
	"fmt"
	"sort"

	"riddle/render"
	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// show is a quantity with the look of its line.
type show struct {
	study.Quantity
	tone   render.Tone
	style  Style
	spread func(readout.Loss) *float64 // its standard error, if it is a loss
}

// Looks of the lines: tones as in the picture, where unthreshed pieces, straw,
// air and broken grain have theirs.
var (
	processing = show{study.Processing, render.Ink, Style{Heavy: true}, func(e readout.Loss) *float64 { return e.Processing }}
	total      = show{study.Total, render.Ink, Style{Heavy: true}, func(e readout.Loss) *float64 { return e.Total }}
	unthreshed = show{study.Unthreshed, render.PieceTone, Style{Dash: []float32{4, 2.5}, Marker: Triangle}, func(e readout.Loss) *float64 { return e.Unthreshed }}
	walker     = show{study.Walker, render.StrawTone, Style{Dash: []float32{0.1, 2.2}, Marker: Square}, func(e readout.Loss) *float64 { return e.Walker }}
	shoe       = show{study.Shoe, render.AirTone, Style{Dash: []float32{6, 2.5, 0.1, 2.5}, Marker: Round}, func(e readout.Loss) *float64 { return e.Shoe }}
	header     = show{study.HeaderLoss, render.CobTone, Style{Dash: []float32{9, 3}, Marker: Cross}, func(e readout.Loss) *float64 { return e.Header }}
	broken     = show{study.Broken, render.BrokenTone, Style{Marker: Diamond}, nil}
	foreign    = show{study.Foreign, render.CobTone, Style{Dash: []float32{1.5, 1.5}, Marker: Cross}, nil}
	returned   = show{study.Returned, render.WeedTone, Style{Dash: []float32{2.5, 2}, Marker: Diamond}, nil}
	either     = show{study.UnthreshedAndBroken, render.GrainTone, Style{Heavy: true, Dash: []float32{5, 2}}, nil}
)

// shown returns the lines that tell the tale of what is varied, and the one on
// which the best value is marked.
func shown(field string) (lines []show, main show) {
	losses := []show{processing, unthreshed, walker, shoe}
	switch field {
	case "cylinder-speed", "concave-clearance":
		return append(losses, broken, either), either
	case "bar-wear":
		return append(losses, broken), processing
	case "lower-sieve":
		return append(losses, foreign, returned), processing
	case "pre-sieve", "fan-speed", "upper-sieve", "green-weeds", "light-grain":
		return append(losses, foreign), processing
	case "reel-index", "cutting-height", "ground-speed": // these move the header's loss
		return []show{total, header, unthreshed, walker, shoe}, total
	case "grain-moisture":
		return []show{total, header, unthreshed, walker, shoe, broken}, total
	}
	return losses, processing
}

// Response returns the chart of a sweep; method says how its values were made.
func Response(w study.Sweep, c study.Curve, method string) Chart {
	list, main := shown(w.Field.Name)
	ch := Chart{
		Title:  title(w),
		Method: method,
		X:      Axis{Label: withUnit(w.Field), From: min(w.From, w.To), To: max(w.From, w.To)},
		Y:      Axis{Label: basis(list)},
		Text:   circumstances(w),
	}
	for _, s := range list {
		ch.Lines = append(ch.Lines, line(s, c))
	}
	ch.Least = least(w, c, main)
	high := worthShowing(w, c, ch.Lines, main)
	if ch.Least != nil {
		high = max(high, ch.Least.Y)
	}
	ch.Y.To = top(high)
	if b, ok := usual(w); ok && b.To > ch.X.From && b.From < ch.X.To {
		ch.Band = &Band{From: max(b.From, ch.X.From), To: min(b.To, ch.X.To),
			Name: fmt.Sprintf("usual range %s–%s", short(b.From), w.Field.Format(b.To))}
	}
	if v := w.Field.Get(&w.Base); v >= ch.X.From && v <= ch.X.To {
		ch.Set = &Note{X: v, Text: set(w.Field, v)}
	}
	ch.Stop = stop(w, c)
	return ch
}

// least marks the best value on the main line, if it stands out between the
// ends.
func least(w study.Sweep, c study.Curve, main show) *Note {
	best, ok := c.Best(w.Field)
	if !ok || !best.Inside {
		return nil
	}
	r := &c.Points[best.Point].Report
	y, of := main.Get(r), study.Total.Get
	text := fmt.Sprintf("least of all losses %.2f %%", best.Value)
	if best.ByCost {
		of, text = study.CostPerHa, fmt.Sprintf("least cost %.2f a hectare", best.Value)
	}
	if y == nil || !stands(c, of, best.Value) {
		return nil
	}
	return &Note{X: best.At, Y: *y, Text: text + " at " + w.Field.Format(threeDigits(best.At))}
}

// stands reports whether a least value stands out: both ends of its line lie
// above it by more than a fiftieth.
func stands(c study.Curve, of func(*readout.Report) *float64, least float64) bool {
	for _, i := range [...]int{0, len(c.Points) - 1} {
		if v := of(&c.Points[i].Report); v != nil && *v < 1.02*least {
			return false
		}
	}
	return true
}

func set(f *setup.Field, v float64) string {
	if f.Condition {
		return "now " + f.Format(v)
	}
	return "set to " + f.Format(v)
}

// line takes one quantity out of a curve, by what is varied.
func line(s show, c study.Curve) Line {
	l := Line{Name: s.Name, Tone: s.tone, Style: s.style}
	for i := range c.Points {
		r := &c.Points[i].Report
		p := Point{X: c.Points[i].Value}
		if v := s.Get(r); v != nil {
			p.Y = *v
			if s.spread != nil && r.Ledger != nil {
				if e := s.spread(readout.Errors(r)); e != nil {
					p.Error = *e
				}
			}
		} else {
			p.Gap = true
		}
		l.Points = append(l.Points, p)
	}
	sort.SliceStable(l.Points, func(i, j int) bool { return l.Points[i].X < l.Points[j].X })
	return l
}

// worthShowing returns how high the y axis has to go: to all values, but not
// so high that the neighbourhood of the least one becomes a flat line. What
// lies above is cut off and said so.
func worthShowing(w study.Sweep, c study.Curve, lines []Line, main show) float64 {
	most, near := 0.0, 0.0
	b, held := usual(w)
	for _, l := range lines {
		for _, p := range l.Points {
			if p.Gap {
				continue
			}
			most = max(most, p.Y+p.Error)
			if held && l.Name != returned.Name && p.X >= b.From && p.X <= b.To {
				near = max(near, p.Y)
			}
		}
	}
	least, ok := c.Least(main.Get)
	if !ok {
		return most
	}
	return min(most, max(4.5*least.Value, 1.5*near))
}

func usual(w study.Sweep) (crop.Band, bool) {
	c := crop.Find(w.Base.Crop)
	if c == nil {
		return crop.Band{}, false
	}
	b, ok := w.Field.Usual(c)
	return b, ok && b.To > b.From
}

// stop finds where the machine plugs towards one end of the values.
func stop(w study.Sweep, c study.Curve) *Note {
	at := []float64{}
	for i := range c.Points {
		if c.Points[i].Report.State == "plugged" {
			at = append(at, c.Points[i].Value)
		}
	}
	if len(at) == 0 {
		return nil
	}
	sort.Float64s(at)
	x := at[0]
	if high := at[len(at)-1]; high < max(w.From, w.To) { // it plugs at the low end
		x = high
	}
	return &Note{X: x, Text: "plugs"}
}
