// Package marks reads the model's own source for its constants and tables of
// figures, each with the words that stand beside it, and says how each figure
// came to be: published, standard, remembered, calibrated and so on.
package marks

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"sort"
	"strings"
)

// Figure is one named constant, or one table of figures, of the source.
type Figure struct {
	Package string   // import path without the module's name, such as sim/stage/shoe
	File    string   // with slashes, from the root that was read
	Line    int      // of the name
	Name    string   // as in the source
	Value   string   // as in the source; of a table its type
	Table   bool     // more figures than one
	Text    string   // what is said beside it and of its group, in one line
	Marks   []string // found in Text, in the order of Vocabulary
}

// Mark is a word for how a figure came to be.
type Mark struct{ Name, Means string }

// Vocabulary is every mark, strongest first.
var Vocabulary = []Mark{
	{"published", "printed in a work that is named beside it"},
	{"standard", "fixed by a standard or by plain mechanics"},
	{"definition", "true by definition: a unit, a name, a range of this program"},
	{"geometry", "follows from the drawing of this invented machine"},
	{"computed", "worked out from figures that carry their own marks"},
	{"common practice", "what the trade does; no one source"},
	{"memory", "from memory, not yet held against the source"},
	{"calibrated", "chosen here so that the machine does what practice does"},
	{"chosen", "a size, a limit or a step of the program; no fact of the field"},
}

var spelling = regexp.MustCompile(`(?i)\b(published|standard|definition|geometr(?:y|ic)|computed|derived|common practice|memory|calibrated|chosen)\b`)

// others are uses of a mark's word that say nothing of where a figure comes from.
var others = regexp.MustCompile(`(?i)\bstandard (deviation|normal|error|library)`)

// canonical is the mark of a spelling that is not its name.
var canonical = map[string]string{"derived": "computed", "geometric": "geometry"}

// In returns the marks that a text holds, in the order of Vocabulary.
func In(text string) []string {
	found := map[string]bool{}
	text = others.ReplaceAllString(strings.Join(strings.Fields(text), " "), "")
	for _, w := range spelling.FindAllString(text, -1) {
		w = strings.ToLower(w)
		if c, ok := canonical[w]; ok {
			w = c
		}
		found[w] = true
	}
	var list []string
	for _, m := range Vocabulary {
		if found[m.Name] {
			list = append(list, m.Name)
		}
	}
	return list
}

// around lists what lies under sim around the model and computes nothing of it:
// checks, rules, searches and the stories of single dots.
var around = []string{"sim/check/facts", "sim/ask/study", "sim/read/story", "sim/check/rules"}

// Model returns the figures of the model in the module's tree.
func Model(module fs.FS) ([]Figure, error) {
	all, err := Read(module, "sim")
	return slices.DeleteFunc(all, func(f Figure) bool {
		return slices.ContainsFunc(around, func(p string) bool { return strings.HasPrefix(f.Package, p) })
	}), err
}

// Read returns the figures of every Go file under dir of the tree, tests left
// out, in the order of the files and of their lines.
func Read(tree fs.FS, dir string) ([]Figure, error) {
	var list []Figure
	err := fs.WalkDir(tree, dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := fs.ReadFile(tree, name)
		if err != nil {
			return err
		}
		found, err := file(name, text)
		list = append(list, found...)
		return err
	})
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].File != list[j].File {
			return list[i].File < list[j].File
		}
		return list[i].Line < list[j].Line
	})
	return list, err
}

func file(name string, text []byte) ([]Figure, error) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, name, text, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	s := &source{name: name, text: text, set: set}
	ast.Inspect(f, func(n ast.Node) bool {
		if d, ok := n.(ast.Decl); ok && slices.Contains(f.Decls, d) {
			s.within = nil
		}
		switch n := n.(type) {
		case *ast.FuncDecl:
			s.within, s.function = n.Doc, n.Name.Name
		case *ast.GenDecl:
			if n.Tok == token.CONST || n.Tok == token.VAR && slices.Contains(f.Decls, ast.Decl(n)) {
				s.group(n)
			}
			return false
		case *ast.CompositeLit:
			return !s.table(n)
		}
		return true
	})
	return s.found, nil
}
