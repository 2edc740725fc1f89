package marks

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"strconv"
	"strings"
)

// Literal is a number that stands bare in a function.
type Literal struct {
	File     string
	Line     int
	Function string
	Value    string // as in the source
	Text     string // the line that it stands in
}

// Stages are the packages whose functions are laws and steps: there every figure
// has a name.
var Stages = []string{"sim/stage/feed", "sim/stage/thresh", "sim/stage/straw", "sim/stage/shoe", "sim/stage/returns", "sim/stage/tank", "sim/stage/ground", "sim/stage/engine"}

// plain are the numbers that say nothing of a machine: none, the whole, a half
// and a double, of either sign, by definition. Everything else in a formula has
// a name, a change of units too.
var plain = []float64{0, 0.5, 1, 2}

// Literals returns the numbers that stand bare in the functions of every Go file
// of some directories, tests left out: neither plain, nor an index, a length,
// room in memory or a count of turns, nor part of a constant, which Read finds.
func Literals(tree fs.FS, dirs ...string) ([]Literal, error) {
	var list []Literal
	for _, dir := range dirs {
		names, err := fs.Glob(tree, path.Join(dir, "*.go"))
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			text, err := fs.ReadFile(tree, name)
			if err != nil {
				return nil, err
			}
			set := token.NewFileSet()
			f, err := parser.ParseFile(set, name, text, 0)
			if err != nil {
				return nil, err
			}
			lines := strings.Split(string(text), "\n")
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok || fn.Body == nil {
					continue
				}
				for _, l := range bare(fn.Body) {
					line := set.Position(l.Pos()).Line
					list = append(list, Literal{name, line, fn.Name.Name, l.Value, strings.TrimSpace(lines[line-1])})
				}
			}
		}
	}
	return list, nil
}

// bare returns the numbers in a function's body that have to have a name.
func bare(body *ast.BlockStmt) (found []*ast.BasicLit) {
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl: // a constant or table of its own, which has its mark
			return n.Tok != token.CONST
		case *ast.IndexExpr:
			found = append(found, bareIn(n.X)...)
			if _, index := n.Index.(*ast.BasicLit); !index {
				found = append(found, bareIn(n.Index)...)
			}
			return false
		case *ast.SliceExpr:
			found = append(found, bareIn(n.X)...)
			return false
		case *ast.ArrayType, *ast.MapType:
			return false
		case *ast.RangeStmt: // so many turns
			if _, count := n.X.(*ast.BasicLit); count {
				found = append(found, bare(n.Body)...)
				return false
			}
		case *ast.CallExpr: // room in memory
			if name := called(n); name == "make" || name == "NewSwarm" {
				return false
			}
		case *ast.BasicLit:
			if (n.Kind == token.INT || n.Kind == token.FLOAT) && !isPlain(n.Value) {
				found = append(found, n)
			}
		}
		return true
	})
	return found
}

func bareIn(e ast.Expr) []*ast.BasicLit {
	return bare(&ast.BlockStmt{List: []ast.Stmt{&ast.ExprStmt{X: e}}})
}

// called is the name of the function that a call calls.
func called(c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

func isPlain(text string) bool {
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, "_", ""), 64)
	if err != nil {
		return false
	}
	for _, p := range plain {
		if v == p {
			return true
		}
	}
	return false
}
