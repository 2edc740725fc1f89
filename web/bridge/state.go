package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/web/follow"
	"riddle/web/reading"
	"riddle/web/speak"
	"riddle/web/view"
)

// State is the one message about how the machine is doing, ten times a second.
type State struct {
	Tick     int64                     `json:"tick"`
	Seconds  float64                   `json:"seconds"`
	Running  bool                      `json:"running"`
	Warm     float64                   `json:"warm"`    // share of the warm-up that is done; 1 when it is over
	Filling  *speak.Message            `json:"filling"` // while it is not
	Pace     float64                   `json:"pace"`    // of simulated to real time
	Behind   bool                      `json:"behind"`  // the pace falls short of what is asked for
	State    string                    `json:"state"`
	Alarm    *Alarm                    `json:"alarm"`
	Dots     int                       `json:"dots"`
	Spans    [3]float64                `json:"spans"` // of the three columns of the losses, s
	Losses   []reading.LossRow         `json:"losses"`
	Sum      []*speak.Message          `json:"sum"` // the losses in one line
	Tank     reading.Sample            `json:"tank"`
	Grade    *reading.Graded           `json:"grade"`
	Returns  reading.Sample            `json:"returns"`
	Loads    []reading.Load            `json:"loads"`
	Money    reading.Money             `json:"money"`
	Under    map[string]*speak.Message `json:"under"` // reading beneath a setting, by its name
	Notice   *speak.Message            `json:"notice"`
	NoticeID int                       `json:"noticeId"`
	Twin     []*speak.Message          `json:"twin"`   // the picture in words
	Ride     *follow.State             `json:"ride"`   // of the dot that is followed
	Rotors   *speak.Message            `json:"rotors"` // how slowly they are drawn
	Logged   int                       `json:"logged"`
	Compare  *Compare                  `json:"compare,omitempty"` // where there are two machines
	Revision int                       `json:"revision"`
	Map      *view.Map                 `json:"map,omitempty"` // where it has changed
}

// Alarm is why the machine stands, and what to mind.
type Alarm struct {
	Title   *speak.Message   `json:"title"`
	Why     *speak.Message   `json:"why"`
	Caution []*speak.Message `json:"caution"`
}

// State reads the machine.
func (s *Session) State() State {
	rd, run, snap := s.read(), s.run, &s.run.Snap
	fresh, now, short, long := rd.SinceBeat(), rd.Window(reading.NowWindow), rd.Window(reading.ShortWindow), rd.Window(reading.LongWindow)
	st := State{
		Tick: snap.Tick, Seconds: snap.Seconds, Running: run.Running && !run.Plugged(), Warm: run.WarmShare(), Pace: run.Pace(), Behind: run.Behind(),
		State: snap.State.Condition.String(), Alarm: s.words().alarm(), Dots: run.Machine.Live(),
		Spans:  [3]float64{math.Floor(now.Report.WindowS), math.Floor(short.Report.WindowS), math.Floor(long.Report.WindowS)},
		Losses: rd.LossTable(&fresh, &now, &short, &long), Tank: rd.Tank(&long, snap), Returns: rd.Returns(&long), Loads: rd.Loads(&short, snap),
		Money: rd.Money(&long.Report), Grade: rd.Grade(&long.Report), Under: rd.Under(&short, snap), Notice: s.words().noticeText(), NoticeID: run.Notice.ID,
		Ride: s.ride.Tell(rd.Units), Rotors: view.Rotors(run.Speed), Logged: run.Log.Revision(), Revision: run.Revision,
	}
	if st.Warm < 1 {
		st.Filling = speak.Say("loading.warm", speak.With{"share": math.Round(100 * st.Warm)})
	}
	st.Sum = st.sum(&short)
	st.Twin = s.words().twin(&st)
	return st
}

func (w wording) alarm() *Alarm {
	st := w.run.Machine.State()
	if st.Condition != sim.Plugged {
		return nil
	}
	where := speak.Slug(st.Where)
	a := &Alarm{
		Title:   speak.Say("alarm.title", speak.With{"time": speak.Seconds(st.At), "where": speak.Say("plug." + where)}),
		Why:     speak.Say("plug." + where + ".why"),
		Caution: []*speak.Message{speak.Say("alarm.stop"), speak.Say("alarm.hand")},
	}
	if st.Where == "tank" {
		a.Caution[1] = speak.Say("alarm.tank")
	}
	return a
}

// sum says the losses in one line, and before them that the machine stands.
func (st *State) sum(short *trial.Stretch) (text []*speak.Message) {
	if st.Alarm != nil {
		text = append(text, st.Alarm.Title)
	}
	all := st.Losses[reading.RowCount-1]
	switch {
	case all.Short.V != nil:
	case short.After.Tally.Out() == 0:
		return append(text, speak.Say("sum.none"))
	case readout.Filling(&short.Before.Tally):
		return append(text, speak.Say("sum.filling"))
	default:
		return append(text, speak.Say("sum.little", speak.With{"s": st.Spans[1]}))
	}
	return append(text, speak.Say("sum", speak.With{"s": st.Spans[1], "share": all.Short, "perHa": *all.PerHa, "long": st.Spans[2]}))
}

// twin says in words what the picture shows.
func (w wording) twin(st *State) []*speak.Message {
	text := []*speak.Message{
		speak.Say("twin.state."+st.State, speak.With{"crop": speak.Say("crop." + w.run.Machine.Crop().Name), "time": speak.Seconds(st.Seconds), "n": st.Dots}),
	}
	if st.Alarm != nil {
		text = append(text, st.Alarm.Title, st.Alarm.Why)
		text = append(text, st.Sum[1:]...)
	} else {
		text = append(text, st.Sum...)
	}
	if st.Losses[reading.RowCount-1].Short.V == nil {
		return text
	}
	var causes []*speak.Message
	for _, r := range st.Losses[:reading.RowCount-1] {
		causes = append(causes, speak.Say("twin.part", speak.With{"name": speak.Say("loss." + r.ID + ".short"), "share": r.Short}))
	}
	text = append(text, speak.Say("twin.causes", speak.With{"list": causes}),
		speak.Say("twin.tank", speak.With{"head": st.Tank.Head, "list": st.Tank.Words()}), speak.Say("twin.returns", speak.With{"head": st.Returns.Head, "list": st.Returns.Words()}))
	return append(text, w.units.Picture(&w.run.Snap)...)
}

// Readings are the windows in numbers, for programs.
type Readings struct {
	Tick  int64          `json:"tick"`
	Short readout.Report `json:"short"`
	Long  readout.Report `json:"long"`
}

// Readings reads both windows.
func (s *Session) Readings() Readings {
	short, long := s.read().Window(reading.ShortWindow), s.read().Window(reading.LongWindow)
	return Readings{s.run.Snap.Tick, short.Report, long.Report}
}
