package bridge

import (
	"math"
	"slices"

	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/quantity"
	"riddle/sim/readout"
)

// lossRow is one line of the table of losses.
type lossRow struct {
	id     string // its words stand under loss.ID
	inner  bool   // a part of the row above it
	sum    bool   // of rows above it, that charts leave out
	causes []flow.Cause
	pct    func(*readout.Report) *float64
	perHa  func(*readout.Report) *float64
	ground func(*readout.Loss) *float64 // the same, of losses in another unit
}

// rows is how many lines the table has.
const rows = 8

// lossRows stand in the order of the crop; the last is their sum.
var lossRows = [rows]lossRow{
	{id: "header", causes: []flow.Cause{flow.Header},
		pct: func(r *readout.Report) *float64 { return r.Loss.Header }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Header },
		ground: func(l *readout.Loss) *float64 { return l.Header }},
	{id: "unthreshed", causes: []flow.Cause{flow.Unthreshed},
		pct: func(r *readout.Report) *float64 { return r.Loss.Unthreshed }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Unthreshed },
		ground: func(l *readout.Loss) *float64 { return l.Unthreshed }},
	{id: "walker", causes: []flow.Cause{flow.Walker},
		pct: func(r *readout.Report) *float64 { return r.Loss.Walker }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Walker },
		ground: func(l *readout.Loss) *float64 { return l.Walker }},
	{id: "shoe", causes: []flow.Cause{flow.Blown, flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.Loss.Shoe }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Shoe },
		ground: func(l *readout.Loss) *float64 { return l.Shoe }},
	{id: "blown", inner: true, causes: []flow.Cause{flow.Blown},
		pct: func(r *readout.Report) *float64 { return r.ShoeLoss.Blown }},
	{id: "ridden", inner: true, causes: []flow.Cause{flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.ShoeLoss.Ridden }},
	{id: "processing", sum: true, causes: []flow.Cause{flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.Loss.Processing }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Processing },
		ground: func(l *readout.Loss) *float64 { return l.Processing }},
	{id: "total", causes: []flow.Cause{flow.Header, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden},
		pct: func(r *readout.Report) *float64 { return r.Loss.Total }, perHa: func(r *readout.Report) *float64 { return r.LossKgHa.Total },
		ground: func(l *readout.Loss) *float64 { return l.Total }},
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
	ID    string `json:"id"`
	Inner bool   `json:"inner"`
	Now   Q      `json:"now"`   // since the last beat but one
	Short Q      `json:"short"` // % over the short window
	Long  Q      `json:"long"`  // % over the long window
	PerHa *Q     `json:"perHa"` // over the long window
	Area  []Q    `json:"area"`  // kernels a square metre and a square foot, over the long window
	Count int64  `json:"count"` // kernels behind the long one
	Fresh int64  `json:"fresh"` // kernels lost since the last beat
}

func (s *Session) lossTable(fresh, now, short, long *span) []LossRow {
	n, a, b := now.losses(), short.losses(), long.losses()
	table := make([]LossRow, rows)
	for i, r := range lossRows {
		table[i] = LossRow{
			ID: r.id, Inner: r.inner,
			Now: share(n.value[i], n.spread[i]), Short: share(a.value[i], a.spread[i]), Long: share(b.value[i], b.spread[i]),
			Count: long.kernels(r.causes...), Fresh: fresh.kernels(r.causes...),
		}
		if r.perHa != nil {
			perHa := s.q(r.perHa(&long.report), quantity.Lost)
			table[i].PerHa = &perHa
			table[i].Area = []Q{s.q(r.ground(&long.report.LossPerM2), quantity.PerM2), s.q(r.ground(&long.report.LossPerFt2), quantity.PerFt2)}
		}
	}
	return table
}
