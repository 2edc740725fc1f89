package story

import (
	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/section"
)

// cut tells how the header met the piece.
func (t *teller) cut(e *Event) {
	if e.Place == sim.Behind { // the loss itself is told by its own event
		t.i++
		return
	}
	what := t.piece()
	if e.N > 1 {
		what = "a " + what + " of " + count(e.N, "kernel", "kernels")
	} else {
		what = "a " + what
	}
	n, at := 1, e
	for t.i+n < len(t.all) && t.all[t.i+n].What == Came && t.all[t.i+n].Place == sim.Feeding {
		at = &t.all[t.i+n]
		n++
	}
	text := "Cut at " + t.at(e) + " in " + what + ", it was drawn up the feeder house."
	if at == e {
		text = "Cut at " + t.at(e) + " in " + what + "."
	}
	t.say(n, text)
}

// entered tells of the way into the gap, the first time or again.
func (t *teller) entered(e *Event) {
	again := ""
	if t.turn > 0 {
		again = " again"
	}
	t.say(1, "At "+t.at(e)+" it came between cylinder and concave"+again+".")
}

// born tells how a kernel came loose.
func (t *teller) born(e *Event) {
	if n, _ := t.next(t.i + 1); n != nil && n.What == Lost && n.Cause() == flow.Header {
		t.i++ // told as the loss
		return
	}
	text := "The " + ordinal(e.N) + " strike of a rasp bar freed it, in the " + third(e.X) + " third of the concave"
	if t.fromKernel() {
		text = "This is a part that broke off that kernel, in the " + third(e.X) + " third of the concave"
	}
	switch e.Place {
	case sim.UnderGrate:
		text += ", and it fell through the grate at once"
	case sim.Plate:
		text += ", too late to find a way through: the beater threw it on the walkers"
	}
	n := 1
	if t.fromKernel() && t.i+1 < len(t.all) && t.all[t.i+1].What == Broke {
		n = 2 // a part is broken by its nature
	}
	t.say(n, text+".")
}

// fromKernel reports whether the dot that is now born came out of a kernel.
func (t *teller) fromKernel() bool {
	if t.i == 0 {
		return false
	}
	parent := t.all[t.i-1].ID
	for i := range t.all[:t.i] {
		if t.all[i].ID == parent {
			return t.all[i].What == Born
		}
	}
	return false
}

func (t *teller) broke(e *Event) {
	if t.i > 0 && t.all[t.i-1].What == Born && t.all[t.i-1].Tick == e.Tick {
		t.say(1, "The same strike broke it.")
		return
	}
	t.say(1, "On its way through the gap a rasp bar broke it.")
}

// opened tells of a piece that gave kernels away and went on.
func (t *teller) opened() {
	n := 1
	for t.i+n < len(t.all) && t.all[t.i+n].What == Opened {
		n++
	}
	if t.all[t.i].ID != t.all[len(t.all)-1].ID {
		t.i += n // the story is that of a kernel of it, and others came loose before
		return
	}
	left := t.all[t.i+n-1].N
	if left == 0 {
		t.done = true
		t.say(n, "In the gap it gave its last kernel away; it is empty.")
		return
	}
	t.say(n, "In the gap it gave kernels away and kept "+count(left, "", "")+".")
}

// walk tells of the straw walkers: from the throw to the way down, or out.
func (t *teller) walk() {
	first, last := t.i, t.i
	e := &t.all[t.i]
	thin, thick := e.N, e.N
	for last+1 < len(t.all) && (t.all[last+1].Place == sim.Walking || t.all[last+1].What == Opened) {
		last++
		thin, thick = min(thin, t.all[last].N), max(thick, t.all[last].N)
	}
	if last+1 == len(t.all) {
		t.say(last-first+1, "Since "+t.at(e)+" it has been in the straw on the walkers, "+t.thick(thin, thick)+" thick.")
		return
	}
	end := &t.all[last+1]
	thin, thick = min(thin, end.N), max(thick, end.N)
	if end.What == Lost { // its N is no thickness
		thin, thick = t.all[first].N, t.all[last].N
	}
	text := "It lay in the straw on the walkers for " + secs(seconds(e, end)) + ", in a mat " + t.thick(min(thin, thick), max(thin, thick)) + " thick"
	if end.What == Came && end.Place == sim.UnderWalker {
		t.say(last-first+2, text+", and fell through "+t.long(end.X-section.WalkerStart.X)+" from their head.")
		return
	}
	t.say(last-first+1, text+", all the way to their rear edge.")
}

// overPre tells of the pre-sieve.
func (t *teller) overPre() {
	n, i := t.next(t.i + 1)
	switch {
	case n == nil:
		t.say(1, "It lies on the pre-sieve.")
	case n.Place == sim.Collecting:
		t.say(i-t.i+1, "It passed the pre-sieve after "+secs(seconds(&t.all[t.i], n))+" and went down the collecting pan.")
	default:
		t.say(1, "It rode over the pre-sieve in "+secs(seconds(&t.all[t.i], n))+".")
	}
}

// ride sums up what a dot did on a sieve.
type ride struct {
	from, to      *Event // to is nil while it is still there
	n             int    // events on the sieve
	thrown, up    int    // times thrown on, lifted by the air
	landed, sank  *Event
	thin, thickly int // of the mat, mm
}

func (t *teller) rideOn(p sim.Place) ride {
	r := ride{from: &t.all[t.i]}
	r.thin, r.thickly = r.from.N, r.from.N
	for j := t.i; j < len(t.all); j++ {
		e := &t.all[j]
		if e.Place != p || e.What == Lost {
			r.to = e
			break
		}
		r.n++
		switch e.What {
		case Thrown:
			r.thrown++
		case Lifted:
			r.up++
		case Sank:
			r.sank = e
		case Landed:
			r.landed = e
			r.thin, r.thickly = min(r.thin, e.N), max(r.thickly, e.N)
		}
	}
	return r
}

// upper tells of the upper sieve.
func (t *teller) upper() {
	r := t.rideOn(sim.Upper)
	text := "On the upper sieve it lay in a mat " + t.thick(r.thin, r.thickly) + " thick"
	if r.sank != nil {
		text += " and sank to the sieve in " + secs(seconds(r.from, r.sank))
	} else if r.thickly == 0 || r.landed == nil && r.thrown > 0 {
		text = "On the upper sieve it came to lie on the face itself"
	}
	if r.up > 0 {
		text += "; the air lifted it " + times(r.up)
	}
	t.say(r.n, text+".")
	if r.to == nil {
		return
	}
	switch {
	case r.to.What == Came && r.to.Place == sim.Between:
		t.say(1, "It met the opening "+times(r.thrown+1)+" and passed, "+t.long(r.to.X-section.UpperSieve.A.X)+" from the front of the sieve, after "+secs(seconds(r.from, r.to))+".")
	case r.thrown > 0 && r.to.What == Lost:
		t.i -= r.n
		t.say(r.n, "In "+secs(seconds(r.from, r.to))+" it met the opening "+times(r.thrown)+" and was thrown on each time.")
	case r.to.What == Lost:
		t.i -= r.n
		t.say(r.n, "In "+secs(seconds(r.from, r.to))+" it never reached an opening.")
	}
}

// lower tells of the lower sieve.
func (t *teller) lower() {
	r := t.rideOn(sim.Lower)
	if r.to == nil {
		t.say(r.n, "It is on the lower sieve.")
		return
	}
	if r.to.Place == sim.Dropping {
		t.say(r.n+1, "On the lower sieve it met the opening "+times(r.thrown+1)+" and passed after "+secs(seconds(r.from, r.to))+".")
		return
	}
	t.say(r.n+1, "It crossed the lower sieve in "+secs(seconds(r.from, r.to))+" and met its opening "+times(r.thrown)+" without passing.")
}

// lost tells how the grain was lost.
func (t *teller) lost(e *Event) {
	t.done = true
	text := ""
	switch e.Cause() {
	case flow.Header:
		text = "knocked out of its " + t.piece() + " at the header and fell to the ground: header loss."
		if t.all[t.i-1].What == Seen {
			text = "missed by the header and stayed behind with its grain: header loss."
		}
		t.say(1, "At "+t.at(e)+" it was "+text)
		return
	case flow.Unthreshed:
		text = "It left still unthreshed, over the rear of the shoe"
		if e.Place == sim.Hood {
			text = "It left still unthreshed, over the rear edge of the walkers with the straw"
		}
	case flow.Walker:
		text = "It went over the rear edge of the walkers with the straw"
	case flow.Blown, flow.Ridden:
		text = "It crossed the rear edge of the upper sieve, " + rodeOut(e)
		if i := t.i - 1; i >= 0 && (t.all[i].Place == sim.Between || t.all[i].Place == sim.Lower) {
			text = "The air under the upper sieve carried it out behind, over the returns"
		}
	}
	t.say(1, text+", at "+t.at(e)+": lost, "+e.Cause().String()+".")
}
