package marks

import (
	"go/ast"
	"go/token"
	"path"
	"strings"
)

// source is one file on its way through Read.
type source struct {
	name  string
	text  []byte
	set   *token.FileSet
	found []Figure

	within   *ast.CommentGroup // of the function that is being read
	function string            // its name
}

// group takes the figures of one declaration. What is said of a figure is its
// own comment; else that of the run of lines that it stands in, which a comment
// heads; and always what is said of the whole declaration.
func (s *source) group(g *ast.GenDecl) {
	var run *ast.CommentGroup
	last := -1
	for _, spec := range g.Specs {
		v := spec.(*ast.ValueSpec)
		line := s.set.Position(v.Pos()).Line
		if v.Doc != nil || line > last+1 {
			run = v.Doc
		}
		last = s.set.Position(v.End()).Line
		if counts(v) {
			continue
		}
		for i, name := range v.Names {
			if i < len(v.Values) && holdsNumber(v.Values[i]) {
				s.add(g, v, run, name, v.Values[i])
			}
		}
	}
}

func (s *source) add(g *ast.GenDecl, v *ast.ValueSpec, run *ast.CommentGroup, name *ast.Ident, value ast.Expr) {
	near := words(v.Comment)
	if len(In(near)) == 0 {
		near = join(near, words(run))
	}
	if len(In(near)) == 0 {
		near = join(near, words(g.Doc))
	}
	if len(In(near)) == 0 {
		near = join(near, words(s.within))
	}
	at := s.set.Position(name.Pos())
	f := Figure{
		Package: path.Dir(s.name), File: s.name, Line: at.Line, Name: name.Name,
		Value: s.of(value), Text: near, Marks: In(near),
	}
	if c, ok := value.(*ast.CompositeLit); ok {
		f.Table, f.Value = true, s.of(c.Type)
	} else if len(f.Marks) == 0 && usesNames(value) {
		f.Marks = []string{"computed"}
	}
	s.found = append(s.found, f)
}

// fewest figures in a row inside a function that make a table. Chosen.
const fewest = 4

// table takes a list of figures that stands inside a function, under the
// function's name and words, and reports whether it was one.
func (s *source) table(c *ast.CompositeLit) bool {
	switch c.Type.(type) {
	case *ast.ArrayType, *ast.MapType:
	default:
		return false
	}
	figures := 0
	for _, e := range c.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			e = kv.Value
		}
		if holdsNumber(e) {
			figures++
		}
	}
	if figures < fewest {
		return false
	}
	text := words(s.within)
	s.found = append(s.found, Figure{
		Package: path.Dir(s.name), File: s.name, Line: s.set.Position(c.Pos()).Line, Name: s.function,
		Value: s.of(c.Type), Table: true, Text: text, Marks: In(text),
	})
	return true
}

func (s *source) of(n ast.Node) string {
	if n == nil {
		return ""
	}
	text := string(s.text[s.set.Position(n.Pos()).Offset:s.set.Position(n.End()).Offset])
	return strings.Join(strings.Fields(text), " ")
}

// counts reports whether a constant only numbers names.
func counts(v *ast.ValueSpec) bool {
	found := false
	for _, e := range v.Values {
		ast.Inspect(e, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			found = found || ok && id.Name == "iota"
			return !found
		})
	}
	return found
}

// usesNames reports whether an expression is worked out from named figures.
func usesNames(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		_, ok := n.(*ast.Ident)
		found = found || ok
		return !found
	})
	return found
}

// holdsNumber reports whether an expression holds a figure: a number outside
// the length of an array, a call of make or the body of a function.
func holdsNumber(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ArrayType, *ast.FuncLit, *ast.CallExpr:
			return false
		case *ast.BasicLit:
			found = found || n.Kind == token.INT || n.Kind == token.FLOAT
		}
		return !found
	})
	return found
}

// words returns a comment as one line.
func words(c *ast.CommentGroup) string {
	if c == nil {
		return ""
	}
	return strings.Join(strings.Fields(c.Text()), " ")
}

func join(a, b string) string { return strings.TrimSpace(a + " " + b) }
