// Package known writes the page "How we know": every check of the model
// against the outside, computed as the page is made.
package known

import (
	_ "embed"
	"html/template"
	"io"
	"slices"
	"strings"

	"riddle/sim/check/facts"
	"riddle/testdata/published"
)

//go:embed page.html
var text string

var page = template.Must(template.New("page").Parse(text))

// view is what the page shows.
type view struct {
	Policy     string
	All, Works int
	First      facts.Worth   // the class that the page is headed by
	Printed    facts.Worth   // numbers of whole machines among it
	Others     []facts.Worth // the other classes
	Prefixes   []facts.Prefix
	Subjects   []subject
	Disagree   []cause // of the first class
	Lesser     []cause // of the others
	Marks      []mark
	Sources    []work
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
	"calibrated":      "chosen by this project; no measurement",
}

// blame puts a check that does not hold under its cause.
func blame(list []cause, f facts.Fact) []cause {
	for i := range list {
		if c := &list[i]; c.Why == f.Why {
			c.Facts = append(c.Facts, f)
			return list
		}
	}
	return append(list, cause{f.Why, []facts.Fact{f}})
}

// Write writes the page under a content security policy.
func Write(w io.Writer, policy string, list []facts.Fact) error {
	return page.Execute(w, viewOf(policy, list))
}

func viewOf(policy string, list []facts.Fact) view {
	worths := facts.Worths(list)
	v := view{
		Policy: policy, All: len(list), Works: facts.Sources(list), Prefixes: facts.Prefixes,
		First: worths[0], Others: worths[1:], Printed: facts.Printed(list),
	}
	works, marks := map[string]int{}, map[string]int{}
	for _, f := range list {
		works[f.Source.Key]++
		marks[f.Mark]++
		switch {
		case f.Holds:
		case f.Class == v.First.Class:
			v.Disagree = blame(v.Disagree, f)
		default:
			v.Lesser = blame(v.Lesser, f)
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
