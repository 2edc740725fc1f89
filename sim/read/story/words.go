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
	"now":           "Last seen: {place}, at {time}.",
	"cut.one":       "It came in at {time} in a {held} that held {n} kernel.",
	"cut.other":     "It came in at {time} in a {held} that held {n} kernels.",
	"fed":           "The feeder chain carried it up in {s}.",
	"gap":           "At {time} it went in between the cylinder and the concave.",
	"gap.again":     "At {time} it went in between the cylinder and the concave again.",
	"freed":         "Rasp-bar strike {n} threshed it out, in the {third} third of the concave.",
	"freed.through": "Rasp-bar strike {n} threshed it out, in the {third} third of the concave, and it fell straight through the grate.",
	"freed.over":    "It took until rasp-bar strike {n}, in the {third} third of the concave, to thresh it out: too late to fall through, and the beater threw it onto the walkers.",
	"part":          "This piece broke off the kernel in the {third} third of the concave.",
	"part.through":  "This piece broke off the kernel in the {third} third of the concave and fell straight through the grate.",
	"part.over":     "This piece broke off the kernel in the {third} third of the concave; the beater threw it onto the walkers.",
	"broke":         "A rasp bar broke it on its way through the gap.",
	"broke.same":    "The same strike broke it.",
	"kept":          "In the gap it lost kernels and kept {n}.",
	"kept.none":     "In the gap it lost its last kernel; it is threshed out.",
	"through":       "It fell through the {third} third of the concave.",
	"over":          "It did not get through the concave and went on with the straw; the beater threw it onto the walkers.",

	"walkers":         "Since {time} it has been in the straw on the walkers, in a mat up to {thick} deep.",
	"walkers.through": "It rode in the straw on the walkers for {s}, in a mat up to {thick} deep, and fell through {far} from their front end.",
	"walkers.end":     "It rode in the straw on the walkers for {s}, in a mat up to {thick} deep, all the way to the rear.",
	"pan":             "The walker pan shook it forward to the conveyors.",
	"step":            "At {time} it dropped off the conveyors, through the air blast, onto the shoe.",
	"pre":             "It is on the pre-sieve.",
	"pre.through":     "It dropped through the pre-sieve after {s} and went down the pan.",
	"pre.over":        "It rode over the pre-sieve in {s}.",

	"upper.mat":          "On the upper sieve it rode in a mat up to {thick} deep.",
	"upper.sank":         "On the upper sieve it rode in a mat up to {thick} deep and sank to the sieve after {s}.",
	"upper.face":         "It landed on the upper sieve itself.",
	"upper.lifted.one":   "The air lifted it out of the mat once.",
	"upper.lifted.other": "The air lifted it out of the mat {n} times.",
	"upper.pass.one":     "It met an opening once and dropped through after {s}, {far} from the front of the sieve.",
	"upper.pass.other":   "It met an opening {n} times and dropped through after {s}, {far} from the front of the sieve.",
	"upper.thrown.one":   "In {s} it met an opening once and was tossed past it.",
	"upper.thrown.other": "In {s} it met an opening {n} times and was tossed past it each time.",
	"upper.never":        "In {s} it never reached an opening.",
	"lower":              "It is on the lower sieve.",
	"lower.pass.one":     "On the lower sieve it met an opening once and dropped through after {s}.",
	"lower.pass.other":   "On the lower sieve it met an opening {n} times and dropped through after {s}.",
	"lower.cross.one":    "It crossed the lower sieve in {s}, met an opening once and did not drop through.",
	"lower.cross.other":  "It crossed the lower sieve in {s}, met an opening {n} times and did not drop through.",

	"returns":         "It fell into the returns.",
	"again":           "The returns auger and elevator took it back to the cylinder: trip {n}.",
	"lift":            "It fell into the clean grain trough; the auger and elevator took it up.",
	"tank":            "At {time} it fell into the tank.",
	"tank.broken":     "At {time} it fell into the tank, broken.",
	"tank.unthreshed": "At {time} it fell into the tank, unthreshed.",

	"lost.shattered":          "At {time} it was knocked out of its {held} at the header and fell to the ground: header loss.",
	"lost.missed":             "At {time} the header missed it, and it stayed behind with its grain: header loss.",
	"lost.unthreshed.walkers": "At {time} it left over the rear of the walkers with the straw: lost, unthreshed.",
	"lost.unthreshed.shoe":    "At {time} it left over the rear of the shoe: lost, unthreshed.",
	"lost.walker":             "At {time} it went over the rear of the walkers with the straw: lost, walkers.",
	"lost.mat":                "At {time} it crossed the rear edge of the upper sieve held in the mat, which the air had not opened: lost, carried over.",
	"lost.sieve":              "At {time} it crossed the rear edge of the upper sieve under the mat: lost, carried over.",
	"lost.flying":             "At {time} it flew over the rear edge of the upper sieve, with nothing above to hold it down: lost, blown out.",
	"lost.thrown":             "At {time} it was thrown up into open air and crossed the rear edge of the upper sieve: lost, blown out.",
	"lost.under":              "At {time} the air under the upper sieve carried it out the back, over the returns: lost, blown out.",
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
