package flow

import "math"

// Gravity is the standard acceleration of free fall, m/s². Published: 3rd CGPM
// 1901, 9.80665; two decimals are kept.
const Gravity = 9.81

func sqrt(x float64) float64 { return math.Sqrt(x) }

// Fly moves a dot through one step of dt seconds in air of velocity (ux, uy)
// m/s under the pull of gravity and quadratic drag. The terminal velocity alone
// fixes the drag: at rest in an upward stream of that speed drag equals weight,
// so
//
//	a = g⃗ + (g/Vt²) |u − v| (u − v)
//
// Source: standard mechanics of a body at its terminal velocity. The speed is
// advanced implicitly in the drag, which stays stable for the lightest chaff.
func (d *Dot) Fly(ux, uy, dt float32, pull Pull) {
	rx, ry := ux-d.VX, uy-d.VY
	speed := float32(math.Sqrt(float64(float32(rx*rx) + float32(ry*ry))))
	k := float32(Gravity * speed / (d.Vt * d.Vt) * dt)
	q := 1 / (1 + k)
	vx := float32((d.VX + float32(k*ux) + float32(pull.X*dt)) * q)
	vy := float32((d.VY + float32(k*uy) + float32(pull.Y*dt)) * q)
	d.X += float32(0.5 * (d.VX + vx) * dt)
	d.Y += float32(0.5 * (d.VY + vy) * dt)
	d.VX, d.VY = vx, vy
}
