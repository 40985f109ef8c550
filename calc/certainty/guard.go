package certainty

import "gonum.org/v1/gonum/stat/distuv"

// Guard is how far a measured value has to stay from a limit on one side, to be within it with
// SureEnough: the quantile of Student's t, or of the normal distribution, times Standard
// (guarded acceptance, JCGM 106, 8.3.2). It is in the SI unit of the result.
func (u *Uncertainty) Guard() float64 {
	if u.DegreesOfFreedom == 0 {
		return distuv.UnitNormal.Quantile(float64(SureEnough)) * u.Standard
	}
	return distuv.StudentsT{Sigma: 1, Nu: u.DegreesOfFreedom}.Quantile(float64(SureEnough)) * u.Standard
}
