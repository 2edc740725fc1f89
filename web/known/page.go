// Package known writes the page "How we know": every check of the model
// against the outside, computed as the page is made.
package known

import (
	_ "embed"
	"html/template"
	"io"
	"slices"
	"strings"

	"riddle/sim/facts"
	"riddle/testdata/published"
)

//go:embed page.html
var text string

var page = template.Must(template.New("page").Parse(text))

// view is what the page shows.
type view struct {
	Policy                      string
	All, Hold, Not, Works       int
	Subjects                    []subject
	Disagree                    []cause
	Marks                       []mark
	Sources                     []work
	Published, Practice, Memory int
}

// cause is why one or several checks do not hold.
type cause struct {
	Why   string
	Facts []facts.Fact
}

// subject is one table of the page.
type subject struct {
	Name, Title string
	All, Hold   int
	Facts       []facts.Fact
}

type mark struct {
	Name, Means string
	Checks      int
}

// work is a source and how many checks come from it.
type work struct {
	Source published.Source
	Checks int
}

// means says what each mark is worth.
var means = map[string]string{
	"published":       "printed in the work that is named; often only its abstract was seen, and the list of sources says so",
	"common practice": "what the trade does and its handbooks say; no one source",
	"memory":          "remembered from a work or from practice, not yet held against the print",
	"computed":        "follows by arithmetic from what is stated: a closed form, a balance, a worked example",
	"calibrated":      "a value of this project's own reference set: it shows that the program does what it was set to do, no more",
}

// blame puts a check that does not hold under its cause.
func (v *view) blame(f facts.Fact) {
	for i := range v.Disagree {
		if c := &v.Disagree[i]; c.Why == f.Why {
			c.Facts = append(c.Facts, f)
			return
		}
	}
	v.Disagree = append(v.Disagree, cause{f.Why, []facts.Fact{f}})
}

// Write writes the page under a content security policy.
func Write(w io.Writer, policy string, list []facts.Fact) error {
	return page.Execute(w, viewOf(policy, list))
}

func viewOf(policy string, list []facts.Fact) view {
	v := view{Policy: policy, Works: facts.Sources(list)}
	v.All, v.Hold = facts.Count(list)
	v.Not = v.All - v.Hold
	works, marks := map[string]int{}, map[string]int{}
	for _, f := range list {
		works[f.Source.Key]++
		marks[f.Mark]++
		if !f.Holds {
			v.blame(f)
		}
	}
	for _, s := range published.Subjects() {
		one := subject{Name: s.Name, Title: s.Title}
		for _, f := range list {
			if f.Subject == s.Name {
				one.Facts = append(one.Facts, f)
			}
		}
		if one.All, one.Hold = facts.Count(one.Facts); one.All > 0 {
			v.Subjects = append(v.Subjects, one)
		}
	}
	for _, name := range published.Marks {
		if marks[name] > 0 {
			v.Marks = append(v.Marks, mark{name, means[name], marks[name]})
		}
	}
	for _, f := range list {
		if n := works[f.Source.Key]; n > 0 {
			v.Sources = append(v.Sources, work{f.Source, n})
			works[f.Source.Key] = 0
		}
	}
	slices.SortStableFunc(v.Sources, func(a, b work) int {
		return strings.Compare(strings.ToLower(a.Source.Author+a.Source.Title), strings.ToLower(b.Source.Author+b.Source.Title))
	})
	return v
}
