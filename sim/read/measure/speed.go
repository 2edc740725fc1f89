package measure

// acreMileFt is the divisor of the rule for acres an hour with miles an hour and
// feet: 43,560/5,280. Definition.
const acreMileFt = AcreFt2 / 5280.0

// AcresAnHour returns the rate of work at so many miles an hour over a width in
// feet, for a field efficiency (share of the time in which the machine cuts).
func AcresAnHour(mph, feet, efficiency float64) float64 {
	return mph * feet * efficiency / acreMileFt
}

// LossCost returns what grain lost costs an hour, in the currency of the price.
func LossCost(acresAnHour, bushelsAcre, price float64) float64 {
	return acresAnHour * bushelsAcre * price
}

// Faster is one field cut at two speeds.
type Faster struct {
	Acres      float64 // of the field
	Slow, Fast float64 // rates of work, ac/h
	SlowLoss   float64 // bu/ac
	FastLoss   float64
	Price      float64 // a bushel
	Hour       float64 // what an hour of the machine and its people costs
}

// HoursSaved returns what the greater speed saves.
func (f Faster) HoursSaved() float64 { return f.Acres/f.Slow - f.Acres/f.Fast }

// Net returns what the greater speed costs in grain less what it saves in time;
// above zero the slower speed is the better one.
func (f Faster) Net() float64 {
	return f.Acres*(f.FastLoss-f.SlowLoss)*f.Price - f.HoursSaved()*f.Hour
}
