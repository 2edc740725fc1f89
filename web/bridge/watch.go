package bridge

import (
	"math"
	"strings"
)

// settleAfter is how long after a change its effect is told, s: the short
// window then lies wholly behind the change and the way through the machine.
const settleAfter = 20

// watch waits for what the last change of a setting does.
type watch struct {
	on     bool
	text   string // what was changed
	at     float64
	before losses
}

// notice is a sentence that is to be told once.
type notice struct {
	id   int
	text string
}

func (s *Session) tell(text string) { s.notice = notice{s.notice.id + 1, text} }

// changed starts to watch a change.
func (s *Session) changed(text string) {
	w := s.window(shortWindow)
	if s.watch.on { // two changes at once: judge both against what was before the first
		s.watch.text += ", " + text
	} else {
		s.watch = watch{on: true, text: text, before: w.losses()}
	}
	s.watch.at = s.machine.Seconds()
}

// observe tells what is due after a step. That the machine plugged is told by
// its alarm.
func (s *Session) observe() {
	if s.watch.on && s.machine.Seconds() >= s.watch.at+settleAfter {
		s.watch.on = false
		w := s.window(shortWindow)
		s.tell(s.watch.text + ", " + trim(settleAfter) + " s ago: " + s.watch.before.against(w.losses()))
	}
}

// against says which losses moved by more than chance would move them.
func (a losses) against(b losses) string {
	var moved []string
	for i := range rows {
		if a.value[i] == nil || b.value[i] == nil || a.spread[i] == nil || b.spread[i] == nil {
			continue
		}
		se := math.Hypot(*a.spread[i], *b.spread[i])
		if math.Abs(*b.value[i]-*a.value[i]) > 3*se {
			moved = append(moved, lossRows[i].short+" "+share(a.value[i])+" → "+share(b.value[i])+" %")
		}
	}
	if len(moved) == 0 {
		return "no loss moved by more than three standard errors."
	}
	return strings.Join(moved, ", ") + "."
}
