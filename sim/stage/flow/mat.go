package flow

// Clear is what is left between a mat that fills its room and the roof over it,
// m: half the thickness of the topmost straw. Chosen.
const Clear = 0.01

// Pressed returns how high a mat of a thickness stands in a room: what has no
// more room is pressed, up to the roof.
func Pressed(thick, room float32) float32 { return max(0, min(thick, room-Clear)) }

// Mat is what lies on a sieve or on the walkers, as an even row of cells.
type Mat struct {
	From, To float32
	Load     []float32 // MOG that mats, kg/m², felt over a short time
	Vt       []float32 // its mean terminal velocity, m/s

	perMetre float32
	area     float32 // of a cell in the slice, m²
	mass, vt []float32
}

// NewMat returns a bare row of n cells from x to x, in a slice of the given
// thickness in m.
func NewMat(from, to float64, n int, slice float64) Mat {
	return Mat{
		From: float32(from), To: float32(to), Load: make([]float32, n), Vt: make([]float32, n),
		mass: make([]float32, n), vt: make([]float32, n),
		perMetre: float32(float64(n) / (to - from)), area: float32((to - from) / float64(n) * slice),
	}
}

// Cell returns the cell at x; off the row it is the nearest.
func (m *Mat) Cell(x float32) int {
	i := int((x - m.From) * m.perMetre)
	return min(max(i, 0), len(m.Load)-1)
}

// Middle returns the x of the middle of cell i.
func (m *Mat) Middle(i int) float32 { return m.From + (float32(i)+0.5)/m.perMetre }

// Lay counts a dot's mass (kg, already weighed by how much it mats) into a cell.
func (m *Mat) Lay(cell int, kg, vt float32) {
	m.mass[cell] += float32(kg)
	m.vt[cell] += float32(kg * vt)
}

// Settle takes up what was laid since the last call, as far as share of the
// difference, and clears it.
func (m *Mat) Settle(share float32) {
	for i := range m.mass {
		now := m.mass[i] / m.area
		m.Load[i] += float32((now - m.Load[i]) * share)
		if m.mass[i] > 0 {
			m.Vt[i] += float32((m.vt[i]/m.mass[i] - m.Vt[i]) * share)
		}
		m.mass[i], m.vt[i] = 0, 0
	}
}

// CopyTo makes another mat the same, in the other's own room.
func (m *Mat) CopyTo(to *Mat) {
	load, vt, mass, laid := to.Load, to.Vt, to.mass, to.vt
	*to = *m
	to.Load, to.Vt, to.mass, to.vt = append(load[:0], m.Load...), append(vt[:0], m.Vt...), append(mass[:0], m.mass...), append(laid[:0], m.vt...)
}
