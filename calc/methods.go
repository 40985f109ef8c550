package calc

import "wetrun/calc/unit"

// A Method is one formula by which an operation computes, with its symbols and its
// source. Its title, its domain and what its symbols mean are worded elsewhere, by
// ID, Domain and Meaning.
type Method struct {
	// ID is stable and in snake_case, in the trade's own terms.
	ID string
	// Formula is one equation: the symbol of the result, = and an expression of
	// numbers, + - * / ^, parentheses, sqrt, ln, exp, abs, min, max and sum, and of what a table or a
	// program gives: t_quantile, t_cdf, normal_quantile, normal_cdf, beta_quantile,
	// beta_cdf, beta_binomial_above and most_outside. A symbol
	// that ends in _i is one of a list, over which sum, min and max go. It holds in
	// any coherent units.
	Formula string
	Domain  string // a key in snake_case
	Symbols []MethodSymbol
	Source  ToleranceSource // the zero one is common practice, no published source
	// FromMemory tells that the formula was not read anywhere.
	FromMemory bool
	// Operations are the paths of the operations whose answers it is used in.
	Operations []string
}

// A MethodSymbol is one symbol of a formula.
type MethodSymbol struct {
	Symbol string
	// Meaning is a key in snake_case, the same wherever the same is meant.
	Meaning string
	// Kind is the quantity; none for a count, an exponent or another plain number, and
	// for what is of whatever quantity the request has.
	Kind unit.Kind
}

// MethodID names a method in this program.
type MethodID uint8

// The methods, in the order of GET /v1/methods.
const (
	MethodRunSpeed MethodID = iota
	MethodTotalLength
	MethodTotalTime
	MethodGroundSpeed
	MethodRunSpread
	MethodCourseTime
	MethodApplicationRate
	MethodNozzleFlowForRate
	MethodSpeedForRate
	MethodWidthForRate
	MethodWidthPerNozzle
	MethodTreatedWidth
	MethodFieldRate
	MethodRateDeviation
	MethodUnitConversion
	MethodPressureLaw
	MethodFlowChart
	MethodFlowByChart
	MethodRelativeDensity
	MethodLiquidFlow
	MethodWaterEquivalentFlow
	MethodWaterEquivalentRate
	MethodCatchFlow
	MethodCatchNozzleFlow
	MethodMeanNozzleFlow
	MethodMeanLogarithm
	MethodPressureExponent
	MethodPredictedFlow
	MethodHighestPressure
	MethodLowestPressure
	MethodMeanPressure
	MethodPressureSpread
	MethodFlowSpread
	MethodFlowSpreadAtLimit
	MethodCabOffset
	MethodCabIfGaugeError
	MethodCabIfHoseLoss
	MethodOutputDeviation
	MethodAcceptableLow
	MethodAcceptableHigh
	MethodJugReading
	MethodWeightedMeanFlow
	MethodMeanOfValues
	MethodCoefficientOfVariation
	MethodProportionOutside
	MethodHiddenDeviation
	MethodLargestHiddenDeviation
	MethodDropRating
	MethodAlikeNozzles
	MethodDropMeanRating
	MethodCourseTreatedArea
	MethodRateFromTank
	MethodCourseArea
	MethodCourseLength
	MethodGroupFlow
	MethodSprayFlow
	MethodAgitationFlow
	MethodAgitationShare
	MethodReserveFlow
	MethodPumpDemand
	MethodSpareFlow
	MethodWornPumpFlow
	MethodLargestSprayFlow
	MethodBoomRate
	MethodTheoreticalWorkRate
	MethodEffectiveWorkRate
	MethodAreaPerLoad
	MethodTimeForArea
	MethodWorkRateWithRefills
	MethodVolumeForArea
	MethodRefillingTime
	MethodTotalWorkTime
	MethodCorrectionFactor
	MethodMeterError
	MethodAmountPerPulse
	MethodAmountPerPulseOfSetting
	MethodFactorOfPulses
	MethodPulsesForAmount
	MethodAmountForPulses
	MethodNewFactor
	MethodMeterSpread
	MethodStandardDeviation
	MethodVariation
	MethodPlaceDeviation
	MethodPlaceDistance
	MethodOverlappedMean
	MethodOverlappedVariation
	MethodOverlappedPlace
	MethodHighestPlace
	MethodLowestPlace
	MethodSpacingStep
	MethodLimitFlow
	MethodOverNew
	MethodWearMeanTime
	MethodWearMeanFlow
	MethodWearRate
	MethodWearLineDeviation
	MethodWearOnLine
	MethodWearScatter
	MethodTimeAtLimit
	MethodTimeLeft
	MethodSeasonsLeft
	MethodWearSquares
	MethodWearCertainty
	MethodWearEarliest
	MethodWearLatest
	MethodTreatedAreaOfField
	MethodFieldAreaOfTreated
	MethodMixedVolume
	MethodTankfuls
	MethodPartLoad
	MethodEqualLoad
	MethodAreaAfterLines
	MethodProductOfIngredient
	MethodRateOnBasis
	MethodProductInVolume
	MethodConcentrateInVolume
	MethodProductRateApplied
	MethodConcentrateRate
	MethodCarrierWater
	MethodMiddleSpeed
	MethodTotalFlow
	MethodPressureForFlow
	MethodSpeedAtPressure
	MethodRangeLow
	MethodRangeHigh
	MethodPredictedRate
	MethodCorrectedSpeed
	MethodCorrectedPressure
	MethodCorrectedEngineSpeed
	MethodCorrectedDutyCycle
	MethodSpeedInGear
	MethodEngineSpeedInGear
	MethodFlowRatio
	MethodFlowRatioByChart
	MethodChartFlowForRate
	MethodPressureByChart
	MethodRelativeChange
	MethodChangeSize
	MethodDeviationCost
	MethodCostForArea
	MethodHoursLeft
	MethodScaleError
	MethodReadingError
	MethodReadings
	MethodPooledScatter
	MethodScatterOfMean
	MethodCombinedUncertainty
	MethodEffectiveFreedom
	MethodStudentCoverage
	MethodNormalCoverage
	MethodExpandedUncertainty
	MethodStudentWithin
	MethodStudentBelow
	MethodNormalWithin
	MethodNormalBelow
	MethodSharePossibleLow
	MethodSharePossibleHigh
	MethodPointsPossibleLow
	MethodPointsPossibleHigh
	MethodChanceAbove
	MethodChanceAbovePoints
	MethodGrubbs
	MethodGrubbsPoint
	MethodGrubbsCritical
	MethodRangeOverDeviation
	MethodRangePoint
	MethodRangeCritical
	MethodCount // how many there are
)

// Methods lists the methods. The list is the caller's own, its items are shared.
func Methods() []Method { return append([]Method(nil), methods[:]...) }

// MethodOf returns one method, not to be changed.
func MethodOf(id MethodID) *Method { return &methods[id] }

// A methodRow is a method beside its name in this program.
type methodRow struct {
	id MethodID
	Method
}

var methods = methodTable(
	groundSpeedMethods,
	applicationRateMethods,
	nozzleMethods,
	nozzleFlowMethods,
	pressureUniformityMethods,
	nozzleAcceptanceMethods,
	areaCheckMethods,
	courseLengthMethods,
	pumpDemandMethods,
	fieldCapacityMethods,
	meterCalibrationMethods,
	patternUniformityMethods,
	wearForecastMethods,
	tankLoadsMethods,
	nozzleSelectionMethods,
	correctionsMethods,
	calibrationsMethods,
	uncertaintyMethods,
	samplingMethods,
)

func methodTable(files ...[]methodRow) (all [MethodCount]Method) {
	for _, file := range files {
		for _, row := range file {
			all[row.id] = row.Method
		}
	}
	return all
}
