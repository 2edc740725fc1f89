package web

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"riddle/sim/check/facts/marks"
	"riddle/sim/stage/design"
)

// shown is a constant that stands in an equation or a sentence of the page.
var shown = regexp.MustCompile(`data-figure="([^"]+)">([^<]*)<`)

// withFigures puts the source's value of each constant where the page shows it.
// A constant that stands in an exponent or after a minus has its sign there.
func withFigures(page string, figures []marks.Figure) (string, error) {
	values := map[string]string{}
	for _, f := range figures {
		values[f.Package+"."+f.Name] = f.Value
	}
	var missing error
	text := shown.ReplaceAllStringFunc(page, func(found string) string {
		name := shown.FindStringSubmatch(found)[1]
		v, err := strconv.ParseFloat(values[name], 64)
		if err != nil {
			missing = fmt.Errorf("the model page shows %s, which is no constant of the source", name)
			return found
		}
		return fmt.Sprintf("data-figure=%q>%s<", name, strconv.FormatFloat(math.Abs(v), 'f', -1, 64))
	})
	return text, missing
}

// list calls put for each figure of a crop, and of what the machine does with
// it, under the name of its field, with that of its part before it.
func list(c *design.Fit, put func(field, value string)) {
	flatten(reflect.ValueOf(c.Crop).Elem(), "", put)
	flatten(reflect.ValueOf(c.Calibration).Elem(), "", put)
}

func flatten(v reflect.Value, prefix string, put func(field, value string)) {
	for i := range v.NumField() {
		name, f := prefix+v.Type().Field(i).Name, v.Field(i)
		switch f.Kind() {
		case reflect.Struct:
			flatten(f, name+".", put)
		case reflect.Float64:
			put(name, fmt.Sprintf("%g", f.Float()))
		case reflect.Int:
			put(name, fmt.Sprint(f.Int()))
		case reflect.Bool:
			put(name, map[bool]string{true: "yes", false: "no"}[f.Bool()])
		}
	}
}

// cropWords returns what the source says of each figure of a crop, by the names
// that list gives them. Settings are said where settings are.
func cropWords(source fs.FS) (map[string]string, error) {
	words, err := fieldWords(source, "sim/trade/crop/crop.go", "Crop")
	if err != nil {
		return nil, err
	}
	fitted, err := fieldWords(source, "sim/stage/design/calibration.go", "Calibration")
	if err != nil {
		return nil, err
	}
	maps.Copy(words, fitted)
	for _, group := range []string{"Settings", "Conditions"} {
		units, err := fieldWords(source, "sim/setup/setup.go", group)
		if err != nil {
			return nil, err
		}
		for name, unit := range units {
			words["Start."+name] = "where practice starts: " + unit
			words["Usual."+name+".From"], words["Usual."+name+".To"] = "usual, from: "+unit, "usual, to: "+unit
		}
	}
	return words, nil
}

// fieldWords returns what a file of the source says beside each field of a
// struct and of the structs in it.
func fieldWords(source fs.FS, file, of string) (map[string]string, error) {
	text, err := fs.ReadFile(source, file)
	if err != nil {
		return nil, err
	}
	f, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	g := gatherer{types: map[string]*ast.StructType{}, said: map[string]string{}, words: map[string]string{}}
	for _, d := range f.Decls {
		gen, ok := d.(*ast.GenDecl)
		if !ok || gen.Tok != token.TYPE {
			continue
		}
		for _, spec := range gen.Specs {
			t := spec.(*ast.TypeSpec)
			if s, ok := t.Type.(*ast.StructType); ok {
				g.types[t.Name.Name], g.said[t.Name.Name] = s, oneLine(gen.Doc)
			}
		}
	}
	if g.types[of] != nil {
		g.gather(g.types[of], "", "")
	}
	return g.words, nil
}

func oneLine(c *ast.CommentGroup) string { return strings.Join(strings.Fields(c.Text()), " ") }

// gatherer collects the words beside fields.
type gatherer struct {
	types map[string]*ast.StructType
	said  map[string]string // of a type as a whole
	words map[string]string // by field
}

// gather walks a struct. A field without a word of its own has that of the
// struct that it is in.
func (g *gatherer) gather(s *ast.StructType, prefix, of string) {
	for _, f := range s.Fields.List {
		said := oneLine(f.Comment)
		if said == "" {
			said = of
		}
		for _, n := range f.Names {
			g.words[prefix+n.Name] = said
			if id, ok := f.Type.(*ast.Ident); ok && g.types[id.Name] != nil {
				g.gather(g.types[id.Name], prefix+n.Name+".", g.said[id.Name])
			}
		}
	}
}
