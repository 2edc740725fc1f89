package bridge

import (
	"bytes"
	"encoding/json"
	"image/png"
	"syscall/js"

	"riddle/render"
	"riddle/render/raster"
)

// narrowest is the least width of a picture that is saved, px.
const narrowest = 1440

// Still is how a picture of the machine is wanted, apart from how it is shown.
type Still struct {
	Theme  string `json:"theme"`  // as on the page if empty
	Whole  bool   `json:"whole"`  // the whole machine, whatever the page shows
	Labels bool   `json:"labels"` // names of the parts
	Second bool   `json:"second"` // the second machine, where there are two
}

// keepers are the functions of the port that give what is to be kept.
func (g *game) keepers(function func(func(string) string) js.Func) map[string]any {
	return map[string]any{
		"link": function(func(string) string { k := g.kept(); return k.Link() }),
		"file": function(func(string) string { k := g.kept(); return string(k.File()) }),
		"run":  function(func(string) string { return runText(g.Session) }),
		"runSecond": function(func(string) string {
			if g.pair == nil {
				return ""
			}
			return runText(g.pair.Second)
		}),
		"csv": function(func(string) string { return g.CSV() }),
		"picture": js.FuncOf(func(_ js.Value, args []js.Value) any {
			var still Still
			if len(args) > 0 && args[0].Type() == js.TypeString {
				if json.Unmarshal([]byte(args[0].String()), &still) != nil {
					return js.Null()
				}
			}
			return g.still(still)
		}),
	}
}

// runText is the file of a session's run; empty where it cannot be kept.
func runText(s *Session) string {
	text, err := s.keptRun()
	if err != nil {
		return ""
	}
	return string(text)
}

// still paints the machine as the page shows it, large enough for paper, and
// returns the bytes of a PNG file.
func (g *game) still(want Still) js.Value {
	opt := g.options()
	opt.Unnamed = nil // no page leads to them there
	if want.Theme != "" {
		opt.Theme = want.Theme
	}
	if want.Whole {
		opt.Zone, opt.Lit, opt.Rect, opt.Trail, opt.Passes = "whole", "", render.Rect{}, nil, nil
		opt.Width, opt.Height = 2, 1 // about the machine's own shape
	}
	opt.Labels, opt.Ways = want.Labels, want.Labels
	if k := float64(narrowest) / float64(max(opt.Width, 1)); k > 1 || want.Whole {
		opt.Height, opt.Width = int(float64(opt.Height)*k), narrowest
		opt.Scale = float64(narrowest) / 1000
	}
	snap := g.Snapshot()
	if want.Second && g.pair != nil {
		snap = g.pair.Second.Snapshot()
	}
	img, err := raster.Picture(snap, opt)
	if err != nil {
		return js.Null()
	}
	var file bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	if encoder.Encode(&file, img) != nil {
		return js.Null()
	}
	out := js.Global().Get("Uint8Array").New(file.Len())
	js.CopyBytesToJS(out, file.Bytes())
	return out
}
