package rules

import (
	"strings"

	"riddle/sim/trade/crop"
)

// Row is a rule held in every crop where it applies.
type Row struct {
	Rule   *Rule
	Got    Sign // in every crop, or in the first where it does not hold
	Holds  bool
	Fails  []string // crops in which it does not hold
	Crops  int      // how many were asked
	Why    string   // why it does not hold there, in a sentence
	Listed bool     // that it does not hold is known, and Why says the reason
}

// Rows holds every rule against a machine in every crop. A rule about what the
// machine does not have is a row that does not hold, with the reason.
func Rows(read Reader) ([]Row, error) {
	all := All()
	rows, list := make([]Row, len(all)), make([]*Rule, len(all))
	at := map[*Rule]*Row{}
	for i := range all {
		list[i] = &all[i]
		_, why := all[i].Asked()
		rows[i] = Row{Rule: list[i], Got: all[i].Want, Holds: why == "", Why: why, Listed: why != ""}
		at[list[i]] = &rows[i]
	}
	for _, name := range crop.Names() {
		results, err := check(read, crop.Find(name), list)
		if err != nil {
			return nil, err
		}
		for _, r := range results {
			at[r.Rule].take(&r)
		}
	}
	for i := range rows {
		if n := len(rows[i].Fails); n > 0 && n < rows[i].Crops {
			rows[i].Why = "in " + strings.Join(rows[i].Fails, ", ") + ": " + rows[i].Why
		}
	}
	return rows, nil
}

func (row *Row) take(r *Result) {
	row.Crops++
	if r.Holds {
		return
	}
	if row.Holds {
		row.Got, row.Holds, row.Why, row.Listed = r.Got, false, r.Why, r.Why != ""
	}
	row.Fails = append(row.Fails, r.Crop)
}
