package bridge

import (
	"strings"

	"riddle/sim/read/readout"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
)

// Graded is the grade of the tank's sample, which factors set it, and every
// factor that the sample tells.
type Graded struct {
	Text    *Message `json:"text"`
	Factors []Part   `json:"factors"`
}

// graded reads the grade of a report, or nil where there is none yet.
func (s *Session) graded(r *readout.Report) *Graded {
	table := grade.TableOf(r.Crop)
	if table == nil {
		return &Graded{Text: say("grade.no-table"), Factors: []Part{}}
	}
	if r.Tank.Grade == nil {
		return nil
	}
	out := Graded{Factors: []Part{}}
	for _, a := range grade.Factors(r.Crop) {
		if v := r.Tank.GradeFactors[a.Key]; v != nil {
			out.Factors = append(out.Factors, Part{factorKey(a.Name), s.factor(a.Key, *v)})
		}
	}
	by := []*Message{}
	for _, key := range r.Tank.GradedKeys {
		by = append(by, say(factorKey(table.Factor(key).Name)))
	}
	out.Text = say("grade.every", With{"grade": *r.Tank.Grade})
	if len(by) > 0 {
		out.Text = say("grade.by", With{"grade": *r.Tank.Grade, "factors": by})
	}
	return &out
}

// factor shows the value of a factor; the last part of its key is its unit.
func (s *Session) factor(key string, v float64) Q {
	if !strings.HasSuffix(key, "_lb_bu") {
		return Q{V: &v, Unit: "%", D: 1}
	}
	inPounds := quantity.Customary.Scale(quantity.Density, s.machine.Crop().Name)
	return s.qv(inPounds.Base(v), quantity.Density)
}

func factorKey(name string) string { return "factor." + slug(name) }

// gradeWords are the names of all factors.
func gradeWords(w map[string]string, crop string) {
	for _, a := range grade.Factors(crop) {
		w[factorKey(a.Name)] = title(a.Name)
	}
}
