package operation

import (
	"wetrun/api/working"
	"wetrun/calc/method"
)

func (r *ConvertRequest) work(w working.Working, a *ConvertAnswer) {
	w.Line(method.UnitConversion, "/quantity", a.Quantity).With("x", r.Quantity)
}
