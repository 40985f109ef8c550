package certainty

// Guard is how far from a limit on one side a value has to be so that it keeps the limit
// with a probability of SureEnough: the length of a guard band (JCGM 106, 8.3.2).
func (u *Uncertainty) Guard() float64 {
	return u.Error.Quantile(float64(SureEnough)) * u.Reference
}
