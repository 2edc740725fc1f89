package reading

import (
	"strings"

	"riddle/sim/read/readout"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// Graded is the grade of the tank's sample, which factors set it, and every
// factor that the sample tells.
type Graded struct {
	Text    *speak.Message `json:"text"`
	Factors []Part         `json:"factors"`
}

// Grade reads the grade of a report, or nil where there is none yet.
func (rd Reader) Grade(r *readout.Report) *Graded {
	table := grade.TableOf(r.Crop)
	if table == nil {
		return &Graded{Text: speak.Say("grade.no-table"), Factors: []Part{}}
	}
	if r.Tank.Grade == nil {
		return nil
	}
	out := Graded{Factors: []Part{}}
	for _, a := range grade.Factors(r.Crop) {
		if v := r.Tank.GradeFactors[a.Key]; v != nil {
			out.Factors = append(out.Factors, Part{speak.FactorKey(a.Name), rd.factor(a.Key, *v)})
		}
	}
	by := []*speak.Message{}
	for _, key := range r.Tank.GradedKeys {
		by = append(by, speak.Say(speak.FactorKey(table.Factor(key).Name)))
	}
	out.Text = speak.Say("grade.every", speak.With{"grade": *r.Tank.Grade})
	if len(by) > 0 {
		out.Text = speak.Say("grade.by", speak.With{"grade": *r.Tank.Grade, "factors": by})
	}
	return &out
}

// factor shows the value of a factor; the last part of its key is its unit.
func (rd Reader) factor(key string, v float64) speak.Q {
	if !strings.HasSuffix(key, "_lb_bu") {
		return speak.Q{V: &v, Unit: "%", D: 1}
	}
	inPounds := quantity.Customary.Scale(quantity.Density, rd.Crop)
	return rd.Of(inPounds.Base(v), quantity.Density)
}
