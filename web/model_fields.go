package web

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"reflect"
	"strings"

	"riddle/sim/crop"
)

// list calls put for each figure of a crop under the name of its field, with
// that of its part before it.
func list(c *crop.Crop, put func(field, value string)) {
	flatten(reflect.ValueOf(c).Elem(), "", put)
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

// fieldWords returns what the source says beside each field of the crop's
// types, by the names that list gives them.
func fieldWords(source fs.FS, file string) (map[string]string, error) {
	text, err := fs.ReadFile(source, file)
	if err != nil {
		return nil, err
	}
	f, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	types := map[string]*ast.StructType{}
	ast.Inspect(f, func(n ast.Node) bool {
		if t, ok := n.(*ast.TypeSpec); ok {
			if s, ok := t.Type.(*ast.StructType); ok {
				types[t.Name.Name] = s
			}
		}
		return true
	})
	words := map[string]string{}
	if types["Crop"] != nil {
		gather(types, types["Crop"], "", "", words)
	}
	return words, nil
}

// gather walks a struct. Fields without a comment share the next one below
// them in the same declaration, or that of the struct they are in.
func gather(types map[string]*ast.StructType, s *ast.StructType, prefix, of string, words map[string]string) {
	for _, f := range s.Fields.List {
		said := strings.TrimSpace(strings.Join(strings.Fields(f.Comment.Text()), " "))
		if said == "" {
			said = of
		}
		for _, n := range f.Names {
			words[prefix+n.Name] = said
			if id, ok := f.Type.(*ast.Ident); ok && types[id.Name] != nil {
				gather(types, types[id.Name], prefix+n.Name+".", said, words)
			}
		}
	}
}
