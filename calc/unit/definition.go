package unit

// The exact definitions. Everything else is composed from them, as untyped
// constants, which Go evaluates exactly; only the finished factor is rounded to
// a float64, once.
//
// Sources: the international yard and pound agreement of 1959 (foot 0.3048 m,
// pound 0.45359237 kg); NIST Handbook 44, Appendix C (US gallon 231 in3, acre
// 43 560 ft2, on the international foot); Units of Measurement Regulations 1995,
// United Kingdom (imperial gallon 4.54609 L); 3rd CGPM 1901 (standard gravity
// 9.80665 m/s2).
const (
	minute = 60.0
	hour   = 3600.0

	inch = 0.0254
	foot = 12 * inch
	yard = 3 * foot
	mile = 5280 * foot

	litre    = 0.001
	gallonUS = 231 * inch * inch * inch
	gallonIm = 4.54609 * litre
	quartUS  = gallonUS / 4
	pintUS   = gallonUS / 8
	flOzUS   = gallonUS / 128
	flOzIm   = gallonIm / 160

	hectare = 10_000.0
	sqFoot  = foot * foot
	acre    = 43_560 * sqFoot

	gram    = 0.001
	pound   = 0.45359237
	ounce   = pound / 16
	gravity = 9.80665
)

// Units to write and read quantities with.
const (
	Metre      Length = 1
	Millimetre Length = 0.001
	Centimetre Length = 0.01
	Kilometre  Length = 1000
	Inch       Length = inch
	Foot       Length = foot
	Yard       Length = yard
	Mile       Length = mile

	Second Time = 1
	Minute Time = minute
	Hour   Time = hour

	MetrePerSecond   Speed = 1
	MetrePerMinute   Speed = 1 / minute
	KilometrePerHour Speed = 1000 / hour
	MilePerHour      Speed = mile / hour
	FootPerMinute    Speed = foot / minute

	Litre              Volume = litre
	Millilitre         Volume = litre / 1000
	USGallon           Volume = gallonUS
	USQuart            Volume = quartUS
	USPint             Volume = pintUS
	USFluidOunce       Volume = flOzUS
	ImperialGallon     Volume = gallonIm
	ImperialFluidOunce Volume = flOzIm

	LitrePerMinute          FlowRate = litre / minute
	MillilitrePerMinute     FlowRate = litre / 1000 / minute
	USGallonPerMinute       FlowRate = gallonUS / minute
	USFluidOuncePerMinute   FlowRate = flOzUS / minute
	ImperialGallonPerMinute FlowRate = gallonIm / minute

	Kilopascal         Pressure = 1000
	Bar                Pressure = 100_000
	PoundPerSquareInch Pressure = pound * gravity / (inch * inch)

	SquareMetre Area = 1
	SquareFoot  Area = sqFoot
	Hectare     Area = hectare
	Acre        Area = acre

	HectarePerHour WorkRate = hectare / hour
	AcrePerHour    WorkRate = acre / hour

	LitrePerHectare      ApplicationRate = litre / hectare
	MillilitrePerHectare ApplicationRate = litre / 1000 / hectare
	USGallonPerAcre      ApplicationRate = gallonUS / acre
	USFluidOuncePerAcre  ApplicationRate = flOzUS / acre
	USPintPerAcre        ApplicationRate = pintUS / acre
	LitrePerAcre         ApplicationRate = litre / acre

	Kilogram Mass = 1
	Gram     Mass = gram
	Pound    Mass = pound
	Ounce    Mass = ounce

	KilogramPerHectare MassRate = 1 / hectare
	PoundPerAcre       MassRate = pound / acre

	KilogramPerCubicMetre Density = 1
	KilogramPerLitre      Density = 1 / litre
	PoundPerUSGallon      Density = pound / gallonUS

	One     Ratio = 1
	Percent Ratio = 0.01

	RevolutionPerMinute RotationalSpeed = 1 / minute
)
