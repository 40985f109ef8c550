package api

import "wetrun/calc/method"

func (r *ConvertRequest) work(w working, a *ConvertAnswer) {
	w.line(method.UnitConversion, "/quantity", a.Quantity).with("x", r.Quantity)
}
