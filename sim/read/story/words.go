package story

import (
	"strconv"
	"strings"

	"riddle/sim"
	"riddle/sim/num"
	"riddle/sim/stage/section"
)

// Value is what stands in a slot of a sentence: a word by its key, a number
// with a unit (s, m or mm), or a plain count.
type Value struct {
	Word string
	N    float64
	Unit string
}

// With are the values of a sentence by slot.
type With map[string]Value

func word(key string) Value   { return Value{Word: "story." + key} }
func count(n int) Value       { return Value{N: float64(n)} }
func span(s float64) Value    { return Value{N: s, Unit: "s"} }
func metres(m float64) Value  { return Value{N: m, Unit: "m"} }
func thick(mm int) Value      { return Value{N: float64(mm), Unit: "mm"} }
func at(e *Event) Value       { return span(e.Seconds()) }
func place(p sim.Place) Value { return word("place." + strconv.Itoa(int(p))) }
func third(x float64) Value   { return word("third." + thirdOf(x)) }

// Words are the English words of the stories, by their keys in the page's
// catalogue. Where a count decides the form, a key has .one and .other.
func Words() map[string]string {
	w := map[string]string{}
	for k, text := range english {
		w["story."+k] = text
	}
	for p := sim.Place(0); p < sim.Places; p++ {
		w["story.place."+strconv.Itoa(int(p))] = p.String()
	}
	for f := range Fates {
		w["story.ask."+f.String()] = fateWords[f]
	}
	return w
}

var english = map[string]string{
	"ask.next":      "A piece on its way to the cylinder",
	"held.head":     "piece of a head",
	"held.pod":      "pod",
	"held.ear":      "piece of an ear",
	"held.panicle":  "piece of a panicle",
	"third.front":   "front",
	"third.middle":  "middle",
	"third.rear":    "rear",
	"begins":        "The record begins at {time}: {place}.",
	"now":           "Its last trace so far: {place}, at {time}.",
	"cut.one":       "Cut at {time} in a {held} with {n} kernel.",
	"cut.other":     "Cut at {time} in a {held} with {n} kernels.",
	"fed":           "The chain of the feeder house drew it up in {s}.",
	"gap":           "At {time} it came between cylinder and concave.",
	"gap.again":     "At {time} it came between cylinder and concave again.",
	"freed":         "Strike {n} of a rasp bar freed it, in the {third} third of the concave.",
	"freed.through": "Strike {n} of a rasp bar freed it, in the {third} third of the concave, and it fell through the grate at once.",
	"freed.over":    "Only strike {n} of a rasp bar freed it, in the {third} third of the concave: too late to find a way through, and the beater threw it on the walkers.",
	"part":          "This is a part that broke off that kernel, in the {third} third of the concave.",
	"part.through":  "This is a part that broke off that kernel, in the {third} third of the concave, and fell through the grate at once.",
	"part.over":     "This is a part that broke off that kernel, in the {third} third of the concave; the beater threw it on the walkers.",
	"broke":         "On its way through the gap a rasp bar broke it.",
	"broke.same":    "The same strike broke it.",
	"kept":          "In the gap it gave kernels away and kept {n}.",
	"kept.none":     "In the gap it gave its last kernel away; it is empty.",
	"through":       "It fell through the concave, in its {third} third.",
	"over":          "It found no way through the concave and went on with the straw; the beater threw it on the walkers.",

	"walkers":         "Since {time} it has been in the straw on the walkers, in a mat up to {thick} thick.",
	"walkers.through": "It lay in the straw on the walkers for {s}, in a mat up to {thick} thick, and fell through {far} from their head.",
	"walkers.end":     "It lay in the straw on the walkers for {s}, in a mat up to {thick} thick, all the way to their rear edge.",
	"pan":             "The walker pan shook it forward to the conveyors.",
	"step":            "At {time} it fell off the conveyors, through the blast, onto the shoe.",
	"pre":             "It lies on the pre-sieve.",
	"pre.through":     "It passed the pre-sieve after {s} and went down its pan.",
	"pre.over":        "It rode over the pre-sieve in {s}.",

	"upper.mat":          "On the upper sieve it lay in a mat up to {thick} thick.",
	"upper.sank":         "On the upper sieve it lay in a mat up to {thick} thick and had sunk to the sieve after {s}.",
	"upper.face":         "On the upper sieve it came to lie on the face itself.",
	"upper.lifted.one":   "The air lifted it out of the mat once.",
	"upper.lifted.other": "The air lifted it out of the mat {n} times.",
	"upper.pass.one":     "It met the opening once and passed, {far} from the front of the sieve, after {s}.",
	"upper.pass.other":   "It met the opening {n} times and passed, {far} from the front of the sieve, after {s}.",
	"upper.thrown.one":   "In {s} it met the opening once and was thrown on.",
	"upper.thrown.other": "In {s} it met the opening {n} times and was thrown on each time.",
	"upper.never":        "In {s} it never reached an opening.",
	"lower":              "It is on the lower sieve.",
	"lower.pass.one":     "On the lower sieve it met the opening once and passed after {s}.",
	"lower.pass.other":   "On the lower sieve it met the opening {n} times and passed after {s}.",
	"lower.cross.one":    "It crossed the lower sieve in {s}, met its opening once and did not pass.",
	"lower.cross.other":  "It crossed the lower sieve in {s}, met its opening {n} times and did not pass.",

	"returns":         "It fell into the returns.",
	"again":           "Auger and elevator of the returns took it back to the cylinder: round {n}.",
	"lift":            "It fell into the clean grain trough, and auger and elevator lifted it.",
	"tank":            "At {time} it fell into the tank.",
	"tank.broken":     "At {time} it fell into the tank, broken.",
	"tank.unthreshed": "At {time} it fell into the tank, unthreshed.",

	"lost.shattered":          "At {time} it was knocked out of its {held} at the header and fell to the ground: header loss.",
	"lost.missed":             "At {time} the header missed it, and it stayed behind with its grain: header loss.",
	"lost.unthreshed.walkers": "At {time} it left over the rear edge of the walkers with the straw: lost, unthreshed.",
	"lost.unthreshed.shoe":    "At {time} it left over the rear of the shoe: lost, unthreshed.",
	"lost.walker":             "At {time} it went over the rear edge of the walkers with the straw: lost, walkers.",
	"lost.mat":                "At {time} it crossed the rear edge of the upper sieve held in the mat, which the air had not opened: lost, ridden over.",
	"lost.sieve":              "At {time} it crossed the rear edge of the upper sieve under the mat: lost, ridden over.",
	"lost.flying":             "At {time} it crossed the rear edge of the upper sieve flying, with nothing over it to hold it down: lost, blown over.",
	"lost.thrown":             "At {time} it crossed the rear edge of the upper sieve, thrown up into the open air: lost, blown over.",
	"lost.under":              "At {time} the air under the upper sieve carried it out behind, over the returns: lost, blown over.",
}

// English returns the sentence in English, with metric units.
func (s Sentence) English() string {
	text, ok := english[strings.TrimPrefix(s.Key, "story.")]
	if !ok {
		form := ".other"
		if s.With["n"].N == 1 {
			form = ".one"
		}
		text = english[strings.TrimPrefix(s.Key, "story.")+form]
	}
	for slot, v := range s.With {
		text = strings.ReplaceAll(text, "{"+slot+"}", v.english())
	}
	return text
}

func (v Value) english() string {
	switch {
	case v.Word != "":
		return Words()[v.Word]
	case v.Unit == "s":
		return strconv.FormatFloat(v.N, 'f', 1, 64) + " s"
	case v.Unit == "m":
		return strconv.FormatFloat(v.N, 'f', 2, 64) + " m"
	case v.Unit == "mm":
		return strconv.FormatFloat(v.N/10, 'f', 1, 64) + " cm"
	}
	return strconv.FormatFloat(v.N, 'f', 0, 64)
}

// held names what holds the kernels of the crop.
func (t *teller) held() Value {
	switch t.crop.Name {
	case "soybeans", "canola":
		return word("held.pod")
	case "corn":
		return word("held.ear")
	case "oats", "rice", "sorghum":
		return word("held.panicle")
	}
	return word("held.head")
}

// thirdOf names the third of the concave over or under which a place lies.
func thirdOf(x float64) string {
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
