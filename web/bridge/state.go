package bridge

import (
	"math"
	"strings"

	"riddle/sim"
	"riddle/sim/crop"
	"riddle/sim/readout"
)

// State is the one message about how the machine is doing. All of it is text
// to show, save the counts that are drawn as tallies.
type State struct {
	Tick     int64             `json:"tick"`
	Clock    string            `json:"clock"`
	Running  bool              `json:"running"`
	Pace     string            `json:"pace"` // of simulated to real time, where it falls short
	State    string            `json:"state"`
	Warning  string            `json:"warning"`
	Alarm    *Alarm            `json:"alarm"`
	Dots     string            `json:"dots"`
	Short    string            `json:"short"` // what the short window spans, in words
	Long     string            `json:"long"`
	Losses   []LossRow         `json:"losses"`
	Sum      string            `json:"sum"` // the losses in one line
	Tank     Sample            `json:"tank"`
	Returns  Sample            `json:"returns"`
	Under    map[string]string `json:"under"` // reading beneath a setting, by its name
	Notice   string            `json:"notice"`
	NoticeID int               `json:"noticeId"`
	Twin     string            `json:"twin"` // the picture in words
	Revision int               `json:"revision"`
	Map      *Map              `json:"map,omitempty"` // where it has changed
}

// Alarm is why the machine stands, and what to mind.
type Alarm struct {
	Title   string `json:"title"`
	Why     string `json:"why"`
	Caution string `json:"caution"`
}

// Sample is what a stream is made of.
type Sample struct {
	Head  string `json:"head"`
	Parts []Part `json:"parts"`
}

// Part is one share of a sample.
type Part struct {
	Label string `json:"label"`
	Value string `json:"value"`
}

const shutDown = "On a real machine shut everything down before you look: engine off, key out, wait until every part has stopped, and clear it as the operator's manual says."

// State reads the machine.
func (s *Session) State() State {
	fresh, short, long := s.sinceBeat(), s.window(shortWindow), s.window(longWindow)
	st := State{
		Tick: s.snap.Tick, Clock: clock(s.snap.Seconds), Running: s.running && !s.plugged(), Pace: s.paceText(),
		State: s.snap.State.Condition.String(), Warning: s.warning(), Alarm: s.alarm(), Dots: count(int64(s.machine.Live())),
		Short: windowText(&short), Long: windowText(&long), Losses: lossTable(&fresh, &short, &long),
		Tank: s.tankSample(&long), Returns: returnsSample(&long), Under: s.under(&short),
		Notice: s.notice.text, NoticeID: s.notice.id, Revision: s.revision,
	}
	st.Sum = st.sum(&short)
	st.Twin = s.twin(&st)
	return st
}

func (s *Session) alarm() *Alarm {
	st := s.machine.State()
	if st.Condition != sim.Plugged {
		return nil
	}
	return &Alarm{Title: "Plugged after " + clock(st.At) + ": " + st.Where, Why: st.Why, Caution: cautionAt(st.Where)}
}

func cautionAt(where string) string {
	if where == "tank" {
		return shutDown + " Nobody goes into a grain tank while anything can run."
	}
	return shutDown + " Never by hand or foot with power on: a plug can come free at once."
}

// warning says what is about to go wrong.
func (s *Session) warning() string {
	if s.machine.State().Condition != sim.Slowing {
		return ""
	}
	return "slowing: more comes in than the cylinder can drive"
}

func (s *Session) paceText() string {
	if !s.Behind() {
		return ""
	}
	return "reaches ×" + number(s.pace.value, 2) + " here"
}

func windowText(w *span) string { return "last " + number(math.Floor(w.report.WindowS), 0) + " s" }

// sum says the losses in one line, and before them that the machine stands.
func (st *State) sum(short *span) string {
	all, text := st.Losses[rows-1], ""
	if st.Alarm != nil {
		text = st.Alarm.Title + ". "
	}
	switch {
	case all.Short == none:
		return text + "No grain has come through yet."
	case short.filling():
		return text + "The machine is still filling: the header's loss shows before the grain cut beside it comes out."
	}
	return text + "Lost in the " + st.Short + ": " + all.Short + " % of the grain; " + all.PerHa + " kg/ha over the " + st.Long + "."
}

func (s *Session) tankSample(w *span) Sample {
	t := w.report.Tank
	head := count(int64(s.snap.TankKg)) + " kg"
	if s.snap.TruckKg > 0 {
		head += ", in the truck " + count(int64(s.snap.TruckKg)) + " kg"
	}
	return Sample{head, []Part{
		{"sound", share(t.Sound)}, {"broken", share(t.Broken)}, {"unthreshed", share(t.Unthreshed)}, {"foreign", share(t.Foreign)},
	}}
}

func returnsSample(w *span) Sample {
	r := w.report.Returns
	return Sample{share(r.OfGrain) + " % of the grain", []Part{
		{"free grain", share(r.FreeGrain)}, {"unthreshed", share(r.Unthreshed)}, {"straw and chaff", share(r.MOG)},
	}}
}

// under says what stands beneath the settings.
func (s *Session) under(w *span) map[string]string {
	feed := w.report.Feed
	m := map[string]string{}
	if feed.GrainTH != nil && feed.MOGKgS != nil {
		m["ground-speed"] = "grain " + number(*feed.GrainTH, 1) + " t/h, MOG " + number(*feed.MOGKgS*3.6, 1) + " t/h"
	}
	m["cylinder-speed"] = "turns at " + number(s.snap.CylinderRPM, 0) + " rpm, " + number(w.report.Cylinder.PowerKW, 0) + " kW"
	m["concave-clearance"] = "front " + number(s.snap.Front, 1) + ", rear " + number(s.snap.Rear, 1) + " mm"
	m["fan-speed"] = "air " + number(s.snap.Air[0], 1) + ", " + number(s.snap.Air[1], 1) + ", " + number(s.snap.Air[2], 1) + " m/s front to rear"
	return m
}

// twin says in words what the picture shows.
func (s *Session) twin(st *State) string {
	var b strings.Builder
	b.WriteString(title(st.State) + " in " + s.snap.Crop.Name + ", " + st.Clock + " after the first tick")
	b.WriteString(", with " + st.Dots + " dots in the machine. ")
	if st.Alarm != nil {
		b.WriteString(st.Alarm.Title + ". " + st.Alarm.Why + " ")
	}
	b.WriteString(st.Sum)
	if st.Losses[rows-1].Short == none {
		return b.String()
	}
	b.WriteString(" By cause:")
	for i, r := range st.Losses[:rows-1] {
		sep := ", "
		if i == 0 {
			sep = " "
		}
		b.WriteString(sep + lossRows[i].short + " " + r.Short + " %")
	}
	b.WriteString(". Tank, " + st.Tank.Head + ":" + parts(st.Tank) + ". Returns, " + st.Returns.Head + ":" + parts(st.Returns) + ".")
	return b.String()
}

func parts(s Sample) string {
	var b strings.Builder
	for i, p := range s.Parts {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(" " + p.Label + " " + p.Value + " %")
	}
	return b.String()
}

func sliceText(c *crop.Crop) string {
	return "One dot is one kernel in a slice " + trim(c.Slice) + " mm thick."
}

// Readings are the windows in numbers, for programs.
type Readings struct {
	Tick  int64          `json:"tick"`
	Short readout.Report `json:"short"`
	Long  readout.Report `json:"long"`
}

// Readings reads both windows.
func (s *Session) Readings() Readings {
	short, long := s.window(shortWindow), s.window(longWindow)
	return Readings{s.snap.Tick, short.report, long.report}
}
