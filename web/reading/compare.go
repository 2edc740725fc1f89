package reading

import (
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/web/speak"
)

// Comparison is one reading of two machines, and the second less the first. Sure
// says whether they differ by more than chance; it is nil where the reading is no
// count.
type Comparison struct {
	Key    string  `json:"key"`
	First  speak.Q `json:"first"`
	Second speak.Q `json:"second"`
	More   speak.Q `json:"more"`
	Inner  bool    `json:"inner"` // a part of the row above it
	Minor  bool    `json:"minor"` // left out where there is room for little
	Sure   *bool   `json:"sure"`
}

// Compare compares two stretches, reading by reading.
func Compare(u speak.Units, a, b *trial.Stretch) []Comparison {
	list := make([]Comparison, len(Columns))
	for i := range Columns {
		list[i] = Columns[i].compare(u, &a.Report, &b.Report)
	}
	return list
}

func (c *Column) compare(u speak.Units, a, b *readout.Report) Comparison {
	x, y := c.Get(a), c.Get(b)
	row := Comparison{Key: c.Key, Minor: c.Fine, First: u.Q(x, c.Dim), Second: u.Q(y, c.Dim), More: u.Q(nil, c.Dim)}
	if c.Loss >= 0 {
		row.Inner = Rows[c.Loss].Inner
	}
	if x == nil || y == nil {
		return row
	}
	more := *row.Second.V - *row.First.V
	row.More.V = &more
	if c.Loss >= 0 {
		row.First.SE, row.Second.SE = Rows[c.Loss].SE(a), Rows[c.Loss].SE(b)
		if apart, told := readout.Apart(x, row.First.SE, y, row.Second.SE); told {
			row.Sure = &apart
		}
	}
	for _, q := range []*speak.Q{&row.First, &row.Second, &row.More} {
		q.Fine = q.Unit == "%"
	}
	return row
}
