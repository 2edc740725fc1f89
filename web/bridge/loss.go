package bridge

import (
	"math"
	"slices"

	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/readout"
)

// lossRow is one line of the table of losses.
type lossRow struct {
	id, label, short string
	where            string // it falls, in words
	inner            bool   // a part of the row above it
	causes           []flow.Cause
	pct              func(*readout.Report) *float64
	perHa            func(*readout.Report) *float64
}

// rows is how many lines the table has.
const rows = 7

// lossRows stand in the order of the crop; the last is their sum.
var lossRows = [rows]lossRow{
	{id: "header", label: "Header", short: "header", where: "shattered, dropped or left standing", causes: []flow.Cause{flow.Header},
		pct: func(r *readout.Report) *float64 { return r.Loss.Header }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Header }},
	{id: "unthreshed", label: "Unthreshed", short: "unthreshed", where: "still in heads, pods or ears", causes: []flow.Cause{flow.Unthreshed},
		pct: func(r *readout.Report) *float64 { return r.Loss.Unthreshed }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Unthreshed }},
	{id: "walker", label: "Straw walkers", short: "walkers", where: "free grain in the straw", causes: []flow.Cause{flow.Walker},
		pct: func(r *readout.Report) *float64 { return r.Loss.Walker }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Walker }},
	{id: "shoe", label: "Shoe", short: "shoe", where: "free grain off the sieves", causes: []flow.Cause{flow.Blown, flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.Loss.Shoe }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Shoe }},
	{id: "blown", label: "blown over", short: "of it blown over", where: "in the air", inner: true, causes: []flow.Cause{flow.Blown},
		pct: func(r *readout.Report) *float64 { return r.ShoeLoss.Blown }},
	{id: "ridden", label: "ridden over", short: "of it ridden over", where: "in or under the mat", inner: true, causes: []flow.Cause{flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.ShoeLoss.Ridden }},
	{id: "total", label: "All losses", short: "all", causes: []flow.Cause{flow.Header, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.Loss.Total }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Total }},
}

// losses is the loss by cause and its standard error, % , in the order of
// lossRows; nil where it cannot be computed or no grain came out.
type losses struct{ value, spread [rows]*float64 }

func (w *span) losses() (l losses) {
	if w.empty() {
		return l
	}
	for i := range lossRows {
		l.value[i] = lossRows[i].pct(&w.report)
		l.spread[i] = w.spread(l.value[i], lossRows[i].causes)
	}
	return l
}

// spread is the standard error of a loss, %.
func (w *span) spread(value *float64, causes []flow.Cause) *float64 {
	if value == nil {
		return nil
	}
	c, out, variance := crop.Find(w.report.Crop), w.left(causes), 0.0
	for _, cause := range causes {
		each := 1.0
		if cause == flow.Unthreshed {
			each = float64(c.PieceKernels)
		}
		e := readout.StandardError(w.lost(cause), out, each)
		if e == nil {
			return nil
		}
		variance += *e * *e
	}
	se := math.Sqrt(variance)
	return &se
}

// left is the grain that the loss by these causes is a share of.
func (w *span) left(causes []flow.Cause) flow.Grain {
	g := w.after.tally.Tank.Grain - w.before.tally.Tank.Grain + w.lost(flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden)
	if slices.Contains(causes, flow.Header) {
		g += w.lost(flow.Header)
	}
	return g
}

// LossRow is a line of the table of losses as the page shows it.
type LossRow struct {
	ID     string `json:"id"`
	Label  string `json:"label"`
	Where  string `json:"where"`
	Inner  bool   `json:"inner"`
	Short  string `json:"short"`  // % over the short window
	Long   string `json:"long"`   // % over the long window
	Spread string `json:"spread"` // standard error of the long one
	PerHa  string `json:"perHa"`
	Count  string `json:"count"` // kernels behind the long one
	Fresh  int64  `json:"fresh"` // kernels lost since the last beat
}

func lossTable(fresh, short, long *span) []LossRow {
	a, b := short.losses(), long.losses()
	table := make([]LossRow, rows)
	for i, r := range lossRows {
		table[i] = LossRow{
			ID: r.id, Label: r.label, Where: r.where, Inner: r.inner, Short: share(a.value[i]), Long: share(b.value[i]),
			Count: count(long.kernels(r.causes...)), Fresh: fresh.kernels(r.causes...),
		}
		if b.spread[i] != nil && *b.spread[i] > 0 {
			table[i].Spread = "± " + number(*b.spread[i], 2)
		}
		if r.perHa != nil {
			table[i].PerHa = whole(r.perHa(&long.report))
		}
	}
	return table
}
