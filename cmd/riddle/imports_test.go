package main

import (
	"go/ast"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "riddle"

// stages of the machine know the language that they share, never each other.
var (
	stages   = []string{"sim/stage/feed", "sim/stage/thresh", "sim/stage/straw", "sim/stage/shoe", "sim/stage/returns", "sim/stage/tank", "sim/stage/ground"}
	language = []string{"sim/num", "sim/stage/section", "sim/trade/quantity", "sim/trade/crop", "sim/stage/design", "sim/setup", "sim/stage/fault", "sim/stage/flow"}
	face     = []string{"sim", "sim/trade/crop", "sim/setup", "sim/stage/fault", "sim/stage/flow", "sim/stage/section", "sim/stage/design", "sim/trade/quantity", "sim/read/readout", "sim/run/trial", "sim/trade/grade", "sim/ask/study", "sim/ask/forecast", "sim/check/rules", "sim/run/course", "sim/trade/weather", "sim/read/story"}
)

// law says who may import whom within the module. A package that is not listed
// has no place yet: give it one.
var law = map[string][]string{
	"sim/num":            {},
	"sim/stage/section":  {},
	"sim/trade/quantity": {},
	"sim/trade/crop":     {"sim/num", "sim/trade/quantity"},
	"sim/stage/design":   {"sim/stage/section", "sim/trade/crop"},
	"sim/setup":          {"sim/num", "sim/trade/quantity", "sim/trade/crop"},
	"sim/stage/fault":    {"sim/setup"},
	"sim/trade/weather":  {"sim/num"},
	"sim/stage/flow":     {"sim/num", "sim/stage/section", "sim/trade/quantity", "sim/trade/crop"},
	"sim/stage/engine":   {"sim/num"},
	"sim/check/agree":    {},
	"sim/stage/feed":     language,
	"sim/stage/thresh":   language,
	"sim/stage/straw":    language,
	"sim/stage/shoe":     language,
	"sim/stage/returns":  language,
	"sim/read/measure":   {},
	"sim/trade/grade":    {"sim/num", "sim/trade/quantity", "sim/trade/crop", "sim/stage/flow"},
	"sim/stage/tank":     append([]string{"sim/trade/grade"}, language...),
	"sim/stage/ground":   language,
	"sim/stage/machines": append([]string{"sim/stage/thresh", "sim/stage/straw"}, language...),
	"sim":                slices.Concat([]string{"sim/stage/machines"}, language, stages, []string{"sim/stage/engine", "sim/trade/grade"}),
	"sim/read/readout":   {"sim/stage/engine", "sim/stage/fault", "sim/stage/section", "sim/trade/quantity", "sim/trade/crop", "sim/setup", "sim/stage/flow", "sim/num", "sim/trade/grade", "sim/read/measure"},
	"sim/ask/forecast":   append(slices.Concat(language, stages), "sim", "sim/stage/machines", "sim/stage/engine", "sim/read/readout", "sim/trade/grade"),
	"sim/run/course":     {"sim/num", "sim/stage/section", "sim/trade/crop", "sim/setup", "sim/trade/weather"},
	"sim/run/journal":    {"sim", "sim/setup", "sim/stage/fault", "sim/run/course"},
	"sim/run/rewind":     {"sim", "sim/run/journal"},
	"sim/run/trial":      {"sim", "sim/run/journal", "sim/stage/fault", "sim/trade/quantity", "sim/trade/crop", "sim/setup", "sim/stage/flow", "sim/read/readout", "sim/run/course"},
	"sim/read/story":     {"sim", "sim/num", "sim/stage/section", "sim/trade/crop", "sim/setup", "sim/stage/flow"},

	// What asks the machine many questions, and what must follow from them.
	"sim/ask/study":   {"sim/num", "sim/trade/quantity", "sim/trade/crop", "sim/setup", "sim/read/readout", "sim/stage/returns"},
	"sim/check/rules": {"sim/num", "sim/stage/fault", "sim/trade/quantity", "sim/trade/crop", "sim/setup", "sim/read/readout", "sim/ask/study"},

	"scenarios/strict": {"sim/num", "sim/trade/quantity", "sim/trade/crop", "sim/setup"},
	"scenarios":        append([]string{"scenarios/strict"}, face...),
	"render":           face,
	"render/raster":    append([]string{"render"}, face...),
	"render/chart":     append([]string{"render"}, face...),
	"render/screen":    append([]string{"render", "render/raster"}, face...),
	"web/files":        {},
	"web":              append([]string{"web/files", "render", "render/raster", "web/known", "sim/check/facts", "sim/check/facts/marks"}, face...),
	"web/share":        append([]string{"scenarios", "scenarios/strict", "sim/run/journal"}, face...),

	// The machine's side of the page: words, what there is to set, what is read, how
	// it is looked at, who follows a kernel, who runs the machine, and the bridge that
	// joins them.
	"web/speak":    append([]string{"scenarios", "render"}, face...),
	"web/controls": {"render", "sim/trade/crop", "sim/setup", "sim/trade/quantity"},
	"web/reading":  {"web/speak", "sim", "sim/trade/crop", "sim/setup", "sim/trade/quantity", "sim/stage/flow", "sim/trade/grade", "sim/read/readout", "sim/run/trial"},
	"web/curve":    {"web/controls", "web/reading", "web/speak", "sim/trade/crop", "sim/setup", "sim/trade/quantity", "sim/read/readout", "sim/ask/forecast", "sim/ask/study"},
	"web/view":     {"web/speak", "render", "sim", "sim/trade/crop", "sim/setup", "sim/stage/flow", "sim/stage/section"},
	"web/follow":   {"web/speak", "render", "sim", "sim/setup", "sim/stage/section", "sim/trade/quantity", "sim/read/story"},
	"web/runner":   {"web/speak", "web/reading", "scenarios", "sim", "sim/trade/crop", "sim/setup", "sim/run/course", "sim/run/journal", "sim/run/rewind", "sim/read/story", "sim/run/trial"},
	"web/bridge": {
		"web/speak", "web/controls", "web/reading", "web/curve", "web/view", "web/follow", "web/runner", "web/share", "render", "render/raster", "render/screen",
		"sim", "sim/trade/crop", "sim/setup", "sim/trade/quantity", "sim/read/readout", "sim/read/story", "sim/run/trial",
	},

	"cmd/riddle":    append([]string{"web/files", "scenarios", "render", "render/raster", "render/chart", "web", "web/share", "sim/run/journal", "sim/check/facts"}, face...),
	"cmd/riddleweb": {"web/bridge"},

	// What holds the model against the outside. Marks reads the source as text.
	"sim/check/facts/marks": {},
	"testdata/published":    {},
	"web/known":             {"sim/check/facts", "testdata/published"},
	"sim/check/facts":       slices.Concat(language, stages, []string{"sim", "sim/read/readout", "sim/run/trial", "sim/trade/grade", "sim/stage/engine", "sim/read/measure", "sim/trade/weather", "sim/ask/forecast", "sim/check/rules", "testdata/published"}),
}

// foreign to the model are the clock, the system and the picture.
var foreign = []string{"os", "time", "log", "image", "syscall", "net", "runtime", "unsafe", "sync"}

// seeded is what the model may use of math/rand/v2: sources with a seed, not
// the functions that share one without.
var seeded = []string{"New", "NewPCG", "NewChaCha8", "PCG", "ChaCha8", "Rand", "Source"}

// uneven functions differ in the last bit between processors, or fuse two
// roundings into one.
var uneven = []string{"Exp", "Exp2", "Expm1", "Pow", "Pow10", "Tanh", "Sinh", "Cosh", "FMA"}

// source is one file of the module.
type source struct {
	path, pkg string // from the root, with slashes
	ast       *ast.File
}

func (s source) test() bool { return strings.HasSuffix(s.path, "_test.go") }
func (s source) sim() bool  { return s.pkg == "sim" || strings.HasPrefix(s.pkg, "sim/") }

func (s source) imports() []string {
	list := []string{}
	for _, i := range s.ast.Imports {
		p, _ := strconv.Unquote(i.Path.Value)
		list = append(list, p)
	}
	return list
}

// onlyBrowser reports whether the file is built for js alone.
func (s source) onlyBrowser() bool {
	if strings.HasSuffix(s.path, "_js.go") {
		return true
	}
	for _, group := range s.ast.Comments {
		for _, c := range group.List {
			if e, err := constraint.Parse(c.Text); err == nil && constraint.IsGoBuild(c.Text) {
				return !e.Eval(func(tag string) bool { return tag != "js" })
			}
		}
	}
	return false
}

// sources reads every Go file of the module, in this process, so that a cached
// result of the test is never older than a file.
func sources(t *testing.T) []source {
	t.Helper()
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	require.FileExists(t, filepath.Join(root, "go.mod"))
	list, set := []source{}, token.NewFileSet()
	require.NoError(t, filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && file != root && strings.HasPrefix(d.Name(), ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || filepath.Ext(file) != ".go" {
			return nil
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(set, file, text, parser.ParseComments)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, file)
		rel = filepath.ToSlash(rel)
		list = append(list, source{rel, path.Dir(rel), f})
		return err
	}))
	require.Greater(t, len(list), 40, "the walk found the module")
	return list
}

// TestImportLaw holds who imports whom.
func TestImportLaw(t *testing.T) {
	for _, s := range sources(t) {
		allowed, placed := law[s.pkg]
		if !placed {
			t.Errorf("%s: package %s has no place in the import law", s.path, s.pkg)
			continue
		}
		for _, p := range s.imports() {
			inside, own := strings.CutPrefix(p, module+"/")
			switch {
			case !own:
			case strings.HasPrefix(inside, "cmd/"):
				t.Errorf("%s imports %s: nothing imports a command", s.path, inside)
			case !s.test() && !slices.Contains(allowed, inside):
				t.Errorf("%s imports %s: %s may import %v", s.path, inside, s.pkg, allowed)
			}
		}
	}
}

// TestModelIsAlone: under sim nothing but the module and the plain parts of the
// standard library, no goroutines, no chance without a seed, and no function
// whose last bit depends on the processor.
func TestModelIsAlone(t *testing.T) {
	for _, s := range sources(t) {
		if !s.sim() || s.test() {
			continue
		}
		for _, p := range s.imports() {
			first, _, _ := strings.Cut(p, "/")
			bad := p == "math/rand" || slices.ContainsFunc(foreign, func(f string) bool { return p == f || strings.HasPrefix(p, f+"/") })
			if bad || strings.Contains(first, ".") {
				t.Errorf("%s imports %s: the model knows no clock, system, picture, unseeded chance or other module", s.path, p)
			}
		}
		ast.Inspect(s.ast, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				t.Errorf("%s starts a goroutine: the order of the model is fixed", s.path)
			case *ast.SelectorExpr:
				x, _ := n.X.(*ast.Ident)
				switch {
				case x == nil:
				case x.Name == "math" && slices.Contains(uneven, n.Sel.Name):
					t.Errorf("%s calls math.%s, whose last bit differs between processors: use sim/num", s.path, n.Sel.Name)
				case x.Name == "rand" && slices.Contains(s.imports(), "math/rand/v2") && !slices.Contains(seeded, n.Sel.Name):
					t.Errorf("%s calls rand.%s, which has no seed of ours", s.path, n.Sel.Name)
				}
			}
			return true
		})
	}
}

// TestEngineStaysInTheBrowser: only the screen and the bridge import the
// engine, in files for js, so that tests need no C compiler and no display.
func TestEngineStaysInTheBrowser(t *testing.T) {
	for _, s := range sources(t) {
		for _, p := range s.imports() {
			switch {
			case p == "syscall/js" && !s.onlyBrowser():
				t.Errorf("%s imports syscall/js without //go:build js", s.path)
			case !strings.HasPrefix(p, "github.com/hajimehoshi/"):
			case s.pkg != "render/screen" && s.pkg != "web/bridge":
				t.Errorf("%s imports the engine", s.path)
			case !s.onlyBrowser():
				t.Errorf("%s imports the engine without //go:build js", s.path)
			}
		}
	}
}
