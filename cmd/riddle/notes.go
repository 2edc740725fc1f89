package main

import (
	"fmt"
	"io"
	"os"
	"time"
)

// notes is standard error: how far a long run has come. A terminal gets one
// line that is written over; anything else gets a line now and then.
type notes struct {
	w        io.Writer
	terminal bool
	began    time.Time
	last     time.Time
	shown    bool
}

func newNotes(w io.Writer) *notes {
	n := &notes{w: w}
	if f, ok := w.(*os.File); ok {
		info, err := f.Stat()
		n.terminal = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return n
}

// progress returns a function that notes the share done, from a second on.
func (n *notes) progress(what string) func(done float64) {
	n.began, n.shown = time.Now(), false
	n.last = n.began
	return func(done float64) { n.note(what, done, time.Now()) }
}

func (n *notes) note(what string, done float64, now time.Time) {
	every := 10 * time.Second
	if n.terminal {
		every = 200 * time.Millisecond
	}
	if now.Sub(n.began) < time.Second || done <= 0 || now.Sub(n.last) < every {
		return
	}
	n.last, n.shown = now, true
	left := time.Duration(float64(now.Sub(n.began)) * (1 - done) / done).Round(time.Second)
	text := fmt.Sprintf("%s: %3.0f %%, about %s left", what, 100*done, left)
	if n.terminal {
		fmt.Fprintf(n.w, "\r%-60s", text)
		return
	}
	fmt.Fprintln(n.w, text)
}

// tell notes what a reader of the result has to know.
func (n *notes) tell(text string) { fmt.Fprintln(n.w, "riddle: "+text) }

// done takes the line of progress away again.
func (n *notes) done() {
	if n.shown && n.terminal {
		fmt.Fprintf(n.w, "\r%-60s\r", "")
	}
}
