package bridge

import (
	"riddle/sim/read/readout"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/quantity"
)

// lossRow is one line of the table of losses.
type lossRow struct {
	id     string // its words stand under loss.ID
	inner  bool   // a part of the row above it
	sum    bool   // of rows above it, that charts leave out
	causes []flow.Cause
	pct    func(*readout.Report) *float64
	se     func(*readout.Report) *float64 // its standard error
	ground func(*readout.Loss) *float64   // the same, of losses in another unit; nil where there are none
}

// rows is how many lines the table has.
const rows = 8

// lossRows stand in the order of the crop; the last is their sum.
var lossRows = [rows]lossRow{
	lossOf("header", func(l *readout.Loss) *float64 { return l.Header }, flow.Header),
	lossOf("unthreshed", func(l *readout.Loss) *float64 { return l.Unthreshed }, flow.Unthreshed),
	lossOf("walker", func(l *readout.Loss) *float64 { return l.Walker }, flow.Walker),
	lossOf("shoe", func(l *readout.Loss) *float64 { return l.Shoe }, flow.Blown, flow.Ridden),
	shoeLossOf("blown", func(l *readout.ShoeLoss) *float64 { return l.Blown }, flow.Blown),
	shoeLossOf("ridden", func(l *readout.ShoeLoss) *float64 { return l.Ridden }, flow.Ridden),
	lossOf("processing", func(l *readout.Loss) *float64 { return l.Processing }, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden),
	lossOf("total", func(l *readout.Loss) *float64 { return l.Total }, flow.Header, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden),
}

func lossOf(id string, of func(*readout.Loss) *float64, causes ...flow.Cause) lossRow {
	return lossRow{
		id: id, sum: id == "processing", causes: causes,
		pct:    func(r *readout.Report) *float64 { return of(&r.Loss) },
		se:     func(r *readout.Report) *float64 { return of(&r.LossSE) },
		ground: of,
	}
}

func shoeLossOf(id string, of func(*readout.ShoeLoss) *float64, cause flow.Cause) lossRow {
	return lossRow{
		id: id, inner: true, causes: []flow.Cause{cause},
		pct: func(r *readout.Report) *float64 { return of(&r.ShoeLoss) },
		se:  func(r *readout.Report) *float64 { return of(&r.ShoeLossSE) },
	}
}

// losses is the loss by cause and its standard error, %, in the order of
// lossRows; nil where it cannot be told.
type losses struct{ value, spread [rows]*float64 }

func (w *span) losses() (l losses) {
	for i := range lossRows {
		l.value[i], l.spread[i] = lossRows[i].pct(&w.report), lossRows[i].se(&w.report)
	}
	return l
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
		if r.ground != nil {
			perHa := s.q(r.ground(&long.report.LossKgHa), quantity.Lost)
			table[i].PerHa = &perHa
			table[i].Area = []Q{s.q(r.ground(&long.report.LossPerM2), quantity.PerM2), s.q(r.ground(&long.report.LossPerFt2), quantity.PerFt2)}
		}
	}
	return table
}
