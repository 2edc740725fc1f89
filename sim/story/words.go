package story

import (
	"strconv"

	"riddle/sim"
	"riddle/sim/num"
	"riddle/sim/section"
)

// piece names what holds the kernels of the crop.
func (t *teller) piece() string {
	switch t.crop.Name {
	case "soybeans", "canola":
		return "pod"
	case "corn":
		return "piece of an ear"
	case "oats", "rice", "sorghum":
		return "piece of a panicle"
	}
	return "piece of a head"
}

// at says when an event happened.
func (t *teller) at(e *Event) string { return secs(e.Seconds()) }

func secs(s float64) string { return strconv.FormatFloat(s, 'f', 1, 64) + " s" }

const inch = 0.0254 // m, exact

// long says a distance.
func (t *teller) long(m float64) string {
	if t.us {
		return strconv.FormatFloat(m/inch, 'f', 0, 64) + " in"
	}
	return strconv.FormatFloat(m, 'f', 2, 64) + " m"
}

// thick says a thickness, or a range of it, given in mm.
func (t *teller) thick(from, to int) string {
	say := func(mm int) string {
		if t.us {
			return strconv.FormatFloat(float64(mm)/1000/inch, 'f', 1, 64)
		}
		return strconv.FormatFloat(float64(mm)/10, 'f', 1, 64)
	}
	unit := " cm"
	if t.us {
		unit = " in"
	}
	a, b := say(from), say(to)
	if a == b {
		return a + unit
	}
	return a + " to " + b + unit
}

// third names the third of the concave over or under which a place lies.
func third(x float64) string {
	const step = (section.ConcaveTo - section.ConcaveFrom) / 3
	r := section.Cylinder.R + 0.01
	edge := func(i float64) float64 {
		return section.Cylinder.Centre.X + float64(r*num.Cos((section.ConcaveFrom+float64(i*step))*radian))
	}
	switch {
	case x < edge(1):
		return "front"
	case x < edge(2):
		return "middle"
	}
	return "rear"
}

const radian = 3.141592653589793 / 180

func times(n int) string {
	switch n {
	case 0:
		return "not once"
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return strconv.Itoa(n) + " times"
}

func ordinal(n int) string {
	words := [...]string{"", "first", "second", "third", "fourth", "fifth", "sixth"}
	if n > 0 && n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n) + "th"
}

func count(n int, one, many string) string {
	switch {
	case one == "":
		return strconv.Itoa(n)
	case n == 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// where says a place.
func where(p sim.Place) string { return p.String() }
