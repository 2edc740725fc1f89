package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// cut tells how the header took the piece.
func (t *teller) cut(e *Event) {
	if e.Place == sim.Behind { // the loss itself is told by its own event
		t.i++
		return
	}
	t.say(1, "cut", With{"time": at(e), "held": t.held(), "n": count(e.N)})
}

// fed tells of the feeder house, once the way through it is over.
func (t *teller) fed(e *Event) {
	if n, _ := t.next(t.i + 1); n != nil {
		t.say(1, "fed", With{"s": took(e, n)})
	}
}

// born tells how a kernel came loose.
func (t *teller) born(e *Event) {
	if n, _ := t.next(t.i + 1); n != nil && n.What == Lost && n.Cause() == flow.Header {
		t.i++ // told as the loss
		return
	}
	key, n := "freed", 1
	if t.fromKernel() {
		key = "part"
		if t.i+1 < len(t.all) && t.all[t.i+1].What == Broke {
			n = 2 // a part is broken by its nature
		}
	}
	switch e.Place {
	case sim.UnderGrate:
		key += ".through"
	case sim.Plate:
		key += ".over"
	}
	t.say(n, key, With{"n": count(e.N), "third": third(e.X)})
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
	key := "broke"
	if t.i > 0 && t.all[t.i-1].What == Born && t.all[t.i-1].Tick == e.Tick {
		key = "broke.same"
	}
	t.say(1, key, nil)
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
	if left := t.all[t.i+n-1].N; left > 0 {
		t.say(n, "kept", With{"n": count(left)})
		return
	}
	t.done = true
	t.say(n, "kept.none", nil)
}

// walk tells of the straw walkers: from the throw to the way down, or out.
func (t *teller) walk() {
	e, n, most := &t.all[t.i], 1, t.all[t.i].N
	for t.i+n < len(t.all) && (t.all[t.i+n].Place == sim.Walking || t.all[t.i+n].What == Opened) {
		if t.all[t.i+n].What == Landed {
			most = max(most, t.all[t.i+n].N)
		}
		n++
	}
	if t.i+n == len(t.all) {
		t.say(n, "walkers", With{"time": at(e), "thick": thick(most)})
		return
	}
	end := &t.all[t.i+n]
	if end.What == Came && end.Place == sim.UnderWalker {
		t.say(n+1, "walkers.through", With{"s": took(e, end), "thick": thick(max(most, end.N)), "far": metres(end.X - section.WalkerStart.X)})
		return
	}
	t.say(n, "walkers.end", With{"s": took(e, end), "thick": thick(most)})
}

// overPre tells of the pre-sieve.
func (t *teller) overPre() {
	n, i := t.next(t.i + 1)
	switch {
	case n == nil:
		t.say(1, "pre", nil)
	case n.Place == sim.Collecting:
		t.say(i-t.i+1, "pre.through", With{"s": took(&t.all[t.i], n)})
	default:
		t.say(1, "pre.over", With{"s": took(&t.all[t.i], n)})
	}
}

// ride sums up what a dot did on a sieve.
type ride struct {
	from, to     *Event // to is nil while it is still there
	n            int    // events on the sieve
	thrown, up   int    // times thrown on, lifted by the air
	landed, sank *Event
	thick        int // of the mat, mm, at most
}

func (t *teller) rideOn(p sim.Place) ride {
	r := ride{from: &t.all[t.i], thick: t.all[t.i].N}
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
			r.thick = max(r.thick, e.N)
		}
	}
	return r
}

// upper tells of the upper sieve.
func (t *teller) upper() {
	r, first := t.rideOn(sim.Upper), t.i
	switch {
	case r.sank != nil:
		t.say(r.n, "upper.sank", With{"thick": thick(r.thick), "s": took(r.from, r.sank)})
	case r.landed == nil && r.thrown > 0:
		t.say(r.n, "upper.face", nil)
	default:
		t.say(r.n, "upper.mat", With{"thick": thick(r.thick)})
	}
	if r.up > 0 {
		t.i = first
		t.say(r.n, "upper.lifted", With{"n": count(r.up)})
	}
	switch {
	case r.to == nil:
	case r.to.What == Came && r.to.Place == sim.Between:
		t.say(1, "upper.pass", With{"n": count(r.thrown + 1), "far": metres(r.to.X - section.UpperSieve.A.X), "s": took(r.from, r.to)})
	case r.to.What == Lost && r.thrown > 0:
		t.i = first
		t.say(r.n, "upper.thrown", With{"n": count(r.thrown), "s": took(r.from, r.to)})
	case r.to.What == Lost:
		t.i = first
		t.say(r.n, "upper.never", With{"s": took(r.from, r.to)})
	}
}

// lower tells of the lower sieve.
func (t *teller) lower() {
	r := t.rideOn(sim.Lower)
	switch {
	case r.to == nil:
		t.say(r.n, "lower", nil)
	case r.to.Place == sim.Dropping:
		t.say(r.n+1, "lower.pass", With{"n": count(r.thrown + 1), "s": took(r.from, r.to)})
	default:
		t.say(r.n+1, "lower.cross", With{"n": count(r.thrown), "s": took(r.from, r.to)})
	}
}

// lost tells how the grain was lost.
func (t *teller) lost(e *Event) {
	t.done = true
	key := ""
	switch e.Cause() {
	case flow.Header:
		key = "lost.shattered"
		if t.all[t.i-1].What == Seen {
			key = "lost.missed"
		}
	case flow.Unthreshed:
		key = "lost.unthreshed.shoe"
		if e.Place == sim.Hood {
			key = "lost.unthreshed.walkers"
		}
	case flow.Walker:
		key = "lost.walker"
	default:
		key = rodeOut(e)
		if i := t.i - 1; i >= 0 && (t.all[i].Place == sim.Between || t.all[i].Place == sim.Lower) {
			key = "lost.under"
		}
	}
	t.say(1, key, With{"time": at(e), "held": t.held()})
}
