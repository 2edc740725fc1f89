package readout

import "riddle/sim/stage/flow"

// Origin finds the area from which the grain came that has left a machine.
// Grain leaves in the order in which it came, by its mass: the grain that has
// left equals what had come in by some moment, and the area is what had been cut
// by then. In a steady machine it is as much in a window as is cut in it.
type Origin struct {
	marks [originMarks]originMark // by grain; those before first are done with
	first int
	kept  int
}

// originMark is that so much grain had come in on so many hectares.
type originMark struct {
	fed flow.Grain
	ha  float64
}

// originMarks bounds how finely the way through the machine is kept: some 12 s
// of ticks fit in as they are, and of a longer way every second one and so on.
// Chosen.
const originMarks = 2048

// Put notes what has come in, over how many hectares. Neither ever falls.
func (o *Origin) Put(fed flow.Grain, ha float64) {
	if o.kept == originMarks {
		o.shift()
	}
	o.marks[o.kept] = originMark{fed, ha}
	o.kept++
}

// shift makes room: by what is done with, or else by every second mark.
func (o *Origin) shift() {
	o.kept = copy(o.marks[:], o.marks[o.first:o.kept])
	o.first = 0
	if o.kept < originMarks*3/4 {
		return
	}
	n := 0
	for i := 0; i < o.kept; i += 2 {
		o.marks[n] = o.marks[i]
		n++
	}
	o.kept = n
}

// Of returns on how many hectares the grain stood that has left. It is asked
// for ever more.
func (o *Origin) Of(out flow.Grain) float64 {
	for o.first+1 < o.kept && o.marks[o.first+1].fed <= out {
		o.first++
	}
	a := o.marks[o.first]
	if out <= a.fed || o.first+1 >= o.kept {
		return a.ha
	}
	b := o.marks[o.first+1]
	return a.ha + float64((b.ha-a.ha)*(float64(out-a.fed)/float64(b.fed-a.fed)))
}
