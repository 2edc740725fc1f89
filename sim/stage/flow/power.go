package flow

// Power is what each part of the machine takes of the engine, kW.
type Power struct {
	Cylinder  float64
	Walkers   float64 // beater and straw walkers
	Shoe      float64 // the drive of sieves, pans and conveyors, and the elevators
	Fan       float64
	Chopper   float64
	Header    float64 // header and feeder house
	Unloading float64
	Driving   float64 // over the ground
}

// Total returns all that the engine gives, kW.
func (p Power) Total() float64 {
	return p.Cylinder + p.Walkers + p.Shoe + p.Fan + p.Chopper + p.Header + p.Unloading + p.Driving
}

// Add adds what another moment took.
func (p *Power) Add(q Power) { p.each(&q, func(a, b float64) float64 { return a + b }) }

// Between returns the mean over n moments of what was added since an earlier
// sum.
func (p Power) Between(earlier Power, n int64) Power {
	p.each(&earlier, func(a, b float64) float64 { return (a - b) / float64(n) })
	return p
}

func (p *Power) each(q *Power, f func(a, b float64) float64) {
	p.Cylinder, p.Walkers, p.Shoe, p.Fan = f(p.Cylinder, q.Cylinder), f(p.Walkers, q.Walkers), f(p.Shoe, q.Shoe), f(p.Fan, q.Fan)
	p.Chopper, p.Header, p.Unloading, p.Driving = f(p.Chopper, q.Chopper), f(p.Header, q.Header), f(p.Unloading, q.Unloading), f(p.Driving, q.Driving)
}
