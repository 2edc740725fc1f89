package published

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"math"
	"regexp"
	"slices"
)

type library struct {
	subjects []Subject
	checks   []Check
}

// sheet is a file of checks.
type sheet struct {
	Subject string  `json:"subject"`
	Title   string  `json:"title"`
	Order   int     `json:"order"`
	Checks  []entry `json:"checks"`
}

// entry is one check, or several of one kind: then each row adds its own name
// to the id and to the words, and may say any of the rest anew.
type entry struct {
	ID     string `json:"id"`
	Source string `json:"source"`
	At     string `json:"at,omitempty"`
	Mark   string `json:"mark"`
	Unit   string `json:"unit"`
	row
	Rows []row `json:"rows,omitempty"`
}

type row struct {
	Name      string             `json:"name,omitempty"`
	What      string             `json:"what,omitempty"`
	Crop      string             `json:"crop,omitempty"`
	Of        string             `json:"of,omitempty"`
	Input     map[string]float64 `json:"input,omitempty"`
	Expected  *float64           `json:"expected,omitempty"`
	Tolerance *float64           `json:"tolerance,omitempty"`
	Band      *[2]float64        `json:"band,omitempty"`
	Sign      *int               `json:"sign,omitempty"`
	Class     string             `json:"class,omitempty"`
	Zero      string             `json:"zero,omitempty"`
	Why       string             `json:"why,omitempty"`
}

var idForm = regexp.MustCompile(`^(TH|CL|CR|NU|UN|DR|KE|EN|WM)-[A-Za-z0-9.]+(-[A-Za-z0-9.]+)*$`)

// read reads sources.json and every other file of the tree.
func read(tree fs.FS) (library, error) {
	var l library
	sources := map[string]Source{}
	if err := strict(tree, "sources.json", &sources); err != nil {
		return l, err
	}
	names, err := fs.Glob(tree, "*.json")
	if err != nil {
		return l, err
	}
	var sheets []sheet
	for _, name := range names {
		if name == "sources.json" {
			continue
		}
		var s sheet
		if err := strict(tree, name, &s); err != nil {
			return l, err
		}
		sheets = append(sheets, s)
	}
	slices.SortStableFunc(sheets, func(a, b sheet) int { return a.Order - b.Order })
	for _, s := range sheets {
		l.subjects = append(l.subjects, Subject{s.Subject, s.Title})
		for _, e := range s.Checks {
			list, err := e.checks(s.Subject, sources)
			if err != nil {
				return l, fmt.Errorf("%s: %s: %w", s.Subject, e.ID, err)
			}
			l.checks = append(l.checks, list...)
		}
	}
	return l, unique(l.checks, sources)
}

// strict reads one file that holds one value and no unknown field.
func strict(tree fs.FS, name string, to any) error {
	text, err := fs.ReadFile(tree, name)
	if err != nil {
		return err
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(to); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return fmt.Errorf("%s: something follows the value", name)
	}
	return nil
}

func (e *entry) checks(subject string, sources map[string]Source) ([]Check, error) {
	source, ok := sources[e.Source]
	if !ok {
		return nil, fmt.Errorf("source %q is not listed", e.Source)
	}
	source.Key = e.Source
	if !slices.Contains(Marks, e.Mark) {
		return nil, fmt.Errorf("mark %q is none of %v", e.Mark, Marks)
	}
	base := Check{Subject: subject, Source: source, At: e.At, Mark: e.Mark, Unit: e.Unit}
	rows := e.Rows
	if len(rows) == 0 {
		rows = []row{{}}
	}
	var list []Check
	for _, r := range rows {
		c := base
		r = e.row.with(r)
		c.ID, c.What, c.Crop, c.Of, c.Input = e.ID+r.Name, r.What, r.Crop, r.Of, r.Input
		c.Class, c.Zero, c.Why = r.Class, r.Zero, r.Why
		if err := errors.Join(r.value(&c), c.worth()); err != nil {
			return nil, fmt.Errorf("%s: %w", c.ID, err)
		}
		if !idForm.MatchString(c.ID) || c.What == "" {
			return nil, fmt.Errorf("%s: a check has an id of the known form and says what it is", c.ID)
		}
		list = append(list, c)
	}
	return list, nil
}

// with lays a row over what all rows share.
func (all row) with(r row) row {
	switch {
	case r.Name != "" && r.What != "":
		r.What = all.What + ": " + r.What
	case r.Name != "":
		r.What = all.What + ": " + r.Name
	default:
		r.What = all.What
	}
	if len(r.Name) == 1 && r.Name >= "a" && r.Name <= "z" { // TH-T4a, but CL-D3-0.2
		return all.fill(r)
	}
	if r.Name != "" {
		r.Name = "-" + r.Name
	}
	return all.fill(r)
}

// fill gives a row what it does not say itself.
func (all row) fill(r row) row {
	if r.Crop == "" {
		r.Crop = all.Crop
	}
	if r.Of == "" {
		r.Of = all.Of
	}
	if all.Input != nil {
		in := maps.Clone(all.Input)
		maps.Copy(in, r.Input)
		r.Input = in
	}
	if r.Expected == nil && r.Band == nil && r.Sign == nil {
		r.Expected, r.Band, r.Sign = all.Expected, all.Band, all.Sign
	}
	if r.Tolerance == nil {
		r.Tolerance = all.Tolerance
	}
	if r.Class == "" {
		r.Class = all.Class
	}
	if r.Zero == "" {
		r.Zero = all.Zero
	}
	if r.Why == "" {
		r.Why = all.Why
	}
	return r
}

// value puts the one value that a row holds into a check.
func (r row) value(c *Check) error {
	kinds := 0
	if r.Expected != nil {
		kinds++
		if r.Tolerance == nil || *r.Tolerance < 0 {
			return errors.New("a number needs a tolerance of 0 or more")
		}
		c.Expected, c.Tolerance = *r.Expected, *r.Tolerance
	}
	if b := r.Band; b != nil {
		kinds++
		if !(b[0] < b[1]) {
			return errors.New("a band runs from the lower to the higher value")
		}
		c.Band = true
		c.Expected, c.Tolerance = (b[0]+b[1])/2, (b[1]-b[0])/2
	}
	if r.Sign != nil {
		kinds++
		if *r.Sign < -1 || *r.Sign > 1 {
			return errors.New("a rule of sign is −1, 0 or 1")
		}
		c.Expected, c.Rule = float64(*r.Sign), true
	}
	if kinds != 1 || math.IsNaN(c.Expected) {
		return errors.New("a check holds one of expected, band and sign")
	}
	return nil
}

// widest is the tolerance over the value up to which a check counts as able to
// fail: its upper end is then nine times the lower.
const widest = 0.8

// worth reports a class that is none, and a check that by its class must be able
// to fail and is too wide to.
func (c *Check) worth() error {
	if !slices.Contains(Classes, c.Class) {
		return fmt.Errorf("class %q is none of %v", c.Class, Classes)
	}
	wide := c.Expected == 0 || c.Tolerance > widest*math.Abs(c.Expected)
	switch {
	case !c.CanFail() && c.Zero != "":
		return errors.New("only a check that has to be able to fail says why zero is expected")
	case c.CanFail() && wide && c.Zero == "":
		return errors.New("the tolerance is as wide as the value: narrow it, or say under zero why that is the claim")
	case c.CanFail() && !wide && c.Zero != "":
		return errors.New("it is said why zero is expected, and it is not")
	}
	return nil
}

// unique reports an id that is used twice, or a source that no check names.
func unique(checks []Check, sources map[string]Source) error {
	seen, used := map[string]bool{}, map[string]bool{}
	for _, c := range checks {
		if seen[c.ID] {
			return fmt.Errorf("%s is used twice", c.ID)
		}
		seen[c.ID], used[c.Source.Key] = true, true
	}
	for _, key := range slices.Sorted(maps.Keys(sources)) {
		if !used[key] {
			return fmt.Errorf("sources.json: %s is named by no check", key)
		}
	}
	return nil
}
