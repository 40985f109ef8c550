package certainty

// sureNormal is the 0.95 quantile of the normal distribution.
const sureNormal = 1.6448536269514722

// Guard is how far from a limit on one side a value has to be so that it keeps the limit
// with a probability of SureEnough: the length of a guard band (JCGM 106, 8.3.2), by the
// quantile of Student's t at the effective degrees of freedom.
func (u *Uncertainty) Guard() float64 {
	if u.DegreesOfFreedom == 0 {
		return sureNormal * u.Standard
	}
	return studentQuantile(float64(SureEnough), sureNormal, u.DegreesOfFreedom) * u.Standard
}
