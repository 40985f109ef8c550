package certainty

import "gonum.org/v1/gonum/stat/distuv"

// Guard is how far from a limit on one side a value has to be so that it keeps the limit
// with a probability of SureEnough: the length of a guard band (JCGM 106, 8.3.2), by the
// quantile of Student's t at the effective degrees of freedom.
func (u *Uncertainty) Guard() float64 {
	if u.DegreesOfFreedom == 0 {
		return distuv.UnitNormal.Quantile(float64(SureEnough)) * u.Standard
	}
	return distuv.StudentsT{Sigma: 1, Nu: u.DegreesOfFreedom}.Quantile(float64(SureEnough)) * u.Standard
}
