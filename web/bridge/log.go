package bridge

import (
	"riddle/sim/read/readout"
	"riddle/web/reading"
	"riddle/web/runner"
	"riddle/web/speak"
)

// Chart is the readings over time, for the strip chart: a point for each
// second of simulated time.
type Chart struct {
	Now     float64              `json:"now"` // s after the first tick
	Points  []reading.ChartPoint `json:"points"`
	Changes []Change             `json:"changes"`
}

// Chart reads the record after a moment.
func (s *Session) Chart(after float64) Chart {
	return Chart{Now: s.run.Machine.Seconds(), Points: s.read().Chart(after), Changes: s.words().changes()}
}

// Change is a line of the log as the page shows it.
type Change struct {
	ID     int            `json:"id"`
	At     float64        `json:"at"`
	Field  string         `json:"field"`
	From   any            `json:"from"`
	To     any            `json:"to"`
	Before []reading.Part `json:"before"` // readings at the change
	After  []reading.Part `json:"after"`  // once it had settled, or nothing
	Cut    bool           `json:"cut"`
	Text   *speak.Message `json:"text"`
}

// Changes lists the log.
func (w wording) changes() []Change {
	log := w.run.Log.Changes()
	list := make([]Change, len(log))
	for i := range log {
		c, u := &log[i], w.units
		at, to := w.run.Log.At(c)
		list[i] = Change{
			ID: c.ID, At: at, Field: c.Field.Name, From: u.Value(c.Field, c.From), To: u.Value(c.Field, to),
			Before: c.Before.Parts(), Cut: c.Cut, Text: w.changeText(c),
		}
		if c.After != nil {
			list[i].After = c.After.Parts()
		}
	}
	return list
}

func (w wording) changeText(c *runner.Change) *speak.Message {
	_, to := w.run.Log.At(c)
	u := w.units
	return speak.Say("change", speak.With{"name": speak.Say("field." + c.Field.Name), "from": u.Value(c.Field, c.From), "to": u.Value(c.Field, to)})
}

// noticeText says what is to be told once.
func (w wording) noticeText() *speak.Message {
	n := &w.run.Notice
	if n.Change == nil {
		return n.Text
	}
	return speak.Say("notice", speak.With{"change": w.changeText(n.Change), "s": runner.SettleAfter, "moved": moved(n.Change)})
}

// moved says what a change that has settled did. Nothing is said without a
// reading before and one after.
func moved(c *runner.Change) any {
	a, b := &c.Before.Losses, &c.After.Losses
	const total = reading.RowCount - 1
	switch {
	case c.Unsure:
		return speak.Say("moved.unsettled")
	case a.Value[total] == nil:
		return speak.Say("moved.before")
	case b.Value[total] == nil:
		return speak.Say("moved.after")
	}
	return against(a, b)
}

// against says which losses moved by more than chance would move them.
func against(a, b *reading.Losses) any {
	var moved []*speak.Message
	for i := range reading.Rows {
		if apart, _ := readout.Apart(a.Value[i], a.Spread[i], b.Value[i], b.Spread[i]); apart {
			moved = append(moved, speak.Say("moved", speak.With{
				"loss": speak.Say("loss." + reading.Rows[i].ID + ".short"), "from": speak.Share(a.Value[i], nil), "to": speak.Share(b.Value[i], nil),
			}))
		}
	}
	if len(moved) == 0 {
		return speak.Say("moved.none")
	}
	return moved
}
