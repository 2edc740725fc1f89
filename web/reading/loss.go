package reading

import (
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// Row is one line of the table of losses.
type Row struct {
	ID      string // its words stand under loss.ID
	Inner   bool   // a part of the row above it
	Sum     bool   // of rows above it, that charts leave out
	Causes  []flow.Cause
	Percent func(*readout.Report) *float64
	SE      func(*readout.Report) *float64 // its standard error
	Ground  func(*readout.Loss) *float64   // the same, of losses in another unit; nil where there are none
}

// RowCount is how many lines the table has.
const RowCount = 8

// Rows stand in the order of the crop; the last is their sum.
var Rows = [RowCount]Row{
	lossOf("header", func(l *readout.Loss) *float64 { return l.Header }, flow.Header),
	lossOf("unthreshed", func(l *readout.Loss) *float64 { return l.Unthreshed }, flow.Unthreshed),
	lossOf("walker", func(l *readout.Loss) *float64 { return l.Walker }, flow.Walker),
	lossOf("shoe", func(l *readout.Loss) *float64 { return l.Shoe }, flow.Blown, flow.Ridden),
	shoeLossOf("blown", func(l *readout.ShoeLoss) *float64 { return l.Blown }, flow.Blown),
	shoeLossOf("ridden", func(l *readout.ShoeLoss) *float64 { return l.Ridden }, flow.Ridden),
	lossOf("processing", func(l *readout.Loss) *float64 { return l.Processing }, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden),
	lossOf("total", func(l *readout.Loss) *float64 { return l.Total }, flow.Header, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden),
}

func lossOf(id string, of func(*readout.Loss) *float64, causes ...flow.Cause) Row {
	return Row{
		ID: id, Sum: id == "processing", Causes: causes,
		Percent: func(r *readout.Report) *float64 { return of(&r.Loss) },
		SE:      func(r *readout.Report) *float64 { return of(&r.LossSE) },
		Ground:  of,
	}
}

func shoeLossOf(id string, of func(*readout.ShoeLoss) *float64, cause flow.Cause) Row {
	return Row{
		ID: id, Inner: true, Causes: []flow.Cause{cause},
		Percent: func(r *readout.Report) *float64 { return of(&r.ShoeLoss) },
		SE:      func(r *readout.Report) *float64 { return of(&r.ShoeLossSE) },
	}
}

// Losses is the loss by cause and its standard error, %, in the order of
// Rows; nil where it cannot be told.
type Losses struct{ Value, Spread [RowCount]*float64 }

// LossesOf reads the losses of a stretch.
func LossesOf(w *trial.Stretch) (l Losses) {
	for i := range Rows {
		l.Value[i], l.Spread[i] = Rows[i].Percent(&w.Report), Rows[i].SE(&w.Report)
	}
	return l
}

// LossRow is a line of the table of losses as the page shows it.
type LossRow struct {
	ID    string    `json:"id"`
	Inner bool      `json:"inner"`
	Now   speak.Q   `json:"now"`   // since the last beat but one
	Short speak.Q   `json:"short"` // % over the short window
	Long  speak.Q   `json:"long"`  // % over the long window
	PerHa *speak.Q  `json:"perHa"` // over the long window
	Area  []speak.Q `json:"area"`  // kernels a square metre and a square foot, over the long window
	Count int64     `json:"count"` // kernels behind the long one
	Fresh int64     `json:"fresh"` // kernels lost since the last beat
}

// LossTable is the table of losses.
func (rd Reader) LossTable(fresh, now, short, long *trial.Stretch) []LossRow {
	n, a, b := LossesOf(now), LossesOf(short), LossesOf(long)
	table := make([]LossRow, RowCount)
	for i, x := range Rows {
		table[i] = LossRow{
			ID: x.ID, Inner: x.Inner,
			Now: speak.Share(n.Value[i], n.Spread[i]), Short: speak.Share(a.Value[i], a.Spread[i]), Long: speak.Share(b.Value[i], b.Spread[i]),
			Count: long.Kernels(x.Causes...), Fresh: fresh.Kernels(x.Causes...),
		}
		if x.Ground != nil {
			perHa := rd.Q(x.Ground(&long.Report.LossKgHa), quantity.Lost)
			table[i].PerHa = &perHa
			table[i].Area = []speak.Q{rd.Q(x.Ground(&long.Report.LossPerM2), quantity.PerM2), rd.Q(x.Ground(&long.Report.LossPerFt2), quantity.PerFt2)}
		}
	}
	return table
}
