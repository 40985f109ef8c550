package operation

import (
	"strconv"
	"strings"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// TypedIn is the unit in which an entry was typed, at a place of calc.
func (r *CalibrationsRequest) TypedIn(at finding.Place) unit.ID {
	p, _ := r.parts(text.English)
	return r.quantityAt(&p, at).Unit
}

// quantityAt is the quantity of the request at a place of calc, where catches are those that
// are judged; the zero Quantity where there is none.
func (r *CalibrationsRequest) quantityAt(p *sheetParts, at finding.Place) (q wire.Quantity) {
	catches, runs, readings := outputCatches, finding.Member("speed").Member("runs"), finding.Member("pressure").Member("readings")
	if i, of, ok := at.ItemOf(catches); ok {
		c := &p.output.Catches[i]
		return map[string]wire.Quantity{"volume": c.Volume, "time": c.Time, "sprayPressure": c.SprayPressure}[of.Part()]
	}
	if i, of, ok := at.ItemOf(runs); ok {
		x := &r.Speed.Runs[i]
		return map[string]wire.Quantity{"courseLength": x.CourseLength, "time": x.Time}[of.Part()]
	}
	if i, _, ok := at.ItemOf(readings); ok {
		return r.Pressure.Readings[i].Pressure
	}
	return map[string]wire.Quantity{
		"pressure.cabPressure": r.Pressure.CabPressure, "pressure.targetPressure": r.Pressure.TargetPressure,
		"output.sprayPressure": r.Output.SprayPressure,
		"machine.bedWidth":     r.Machine.BedWidth, "machine.sprayedWidthPerNozzle": r.Machine.SprayedWidthPerNozzle, "machine.rowSpacing": r.Machine.RowSpacing,
		"target.applicationRate": r.Target.ApplicationRate,
		"nozzle.ratedFlowRate":   r.Nozzle.RatedFlowRate, "nozzle.ratedPressure": r.Nozzle.RatedPressure,
	}[at.String()]
}

// countAt is the number of nozzles at a place; zero where there is none.
func (r *CalibrationsRequest) countAt(p *sheetParts, at finding.Place) int {
	if i, of, ok := at.ItemOf(outputCatches); ok && of.Part() == "nozzles" {
		return nozzlesOf(p.output.Catches[i])
	}
	if at.String() == "machine.nozzlesPerBed" {
		return r.Machine.NozzlesPerBed
	}
	return 0
}

// confirmed are the places that the pointers of the request point to, as calc has them.
func (r *CalibrationsRequest) confirmed(p *sheetParts) (all []finding.Place) {
	for _, pointer := range r.Confirmed {
		all = append(all, p.output.origins.judged(wire.PlaceOf(pointer)))
	}
	return all
}

// ask words a question about an entry.
func (r *CalibrationsRequest) ask(lang text.Language, p *sheetParts, d *calc.Doubt, a *StepAnswer) {
	a.Pointer = wire.Pointer(p.output.origins.moved(d.Entry))
	at := d.Entry
	if !d.First.IsZero() {
		at = d.First
	}
	a.Entry = r.quantityAt(p, at)
	a.Slip = d.Slip.Kind
	s := summary{lang: lang}
	said := s.asSent(a.Entry)
	if n := r.countAt(p, d.Entry); n != 0 {
		said = strconv.Itoa(n)
	}
	words := []string{text.Of(lang, "ask."+string(d.Why), said, beside(&s, d, a.Entry))}
	if d.Why == calc.DoubtApart && said == "-" {
		words[0] = text.Of(lang, "ask.apart_runs")
	}
	if d.Slip.Factor != 0 && a.Entry.Given() {
		a.WouldAgree = wire.In(a.Entry.SI()*d.Slip.Factor, a.Entry.Unit)
		meant := a.Entry.Unit
		if d.Slip.Meant != unit.None {
			meant = d.Slip.Meant
		}
		words = append(words, text.Of(lang, "ask.slip_"+string(d.Slip.Kind), s.quantity(a.WouldAgree), lang.Unit(meant.Symbol())))
	} else if key := countSlips[d.Slip.Kind]; key != "" {
		words = append(words, text.Of(lang, key))
	}
	if _, _, reading := d.Entry.ItemOf(finding.Member("pressure").Member("readings")); reading && d.Low {
		words = append(words, text.Of(lang, "ask.low_pressure"))
	}
	a.Text = strings.Join(words, " ")
	a.Label, a.name = r.entryName(lang, p, d.Entry)
}

// countSlips are the words for slips of a number of nozzles.
var countSlips = map[calc.SlipKind]string{
	calc.SlipDrop: "ask.slip_drop", calc.SlipOneNozzle: "ask.slip_one_nozzle_count", calc.SlipAllBeds: "ask.slip_all_beds",
}

// beside words what an entry stands beside, in its own unit.
func beside(s *summary, d *calc.Doubt, entry wire.Quantity) string {
	if d.Beside.High == 0 || !entry.Given() {
		return ""
	}
	low, high := s.lang.Number(entry.Value*d.Beside.Low), entry
	high.Value *= d.Beside.High
	if low == s.lang.Number(high.Value) {
		return s.quantity(high)
	}
	return text.Of(s.lang, "printed.range", low, s.quantity(high))
}

// entryName is the label of what an entry is of, and what people call it.
func (r *CalibrationsRequest) entryName(lang text.Language, p *sheetParts, entry finding.Place) (label, name string) {
	if i, _, ok := entry.ItemOf(outputCatches); ok {
		label = p.output.Catches[i].Label
		if label == "" {
			return "", text.Of(lang, "step.catch_number", p.output.origins.row(i)+1)
		}
		return label, label
	}
	if i, _, ok := entry.ItemOf(finding.Member("pressure").Member("readings")); ok {
		return r.Pressure.Readings[i].Label, text.Of(lang, "ask.reading", readingName(lang, r.Pressure.Readings[i], i))
	}
	if i, _, ok := entry.ItemOf(finding.Member("speed").Member("runs")); ok {
		return r.Speed.Runs[i].Label, text.Of(lang, "ask.run", nameOrNumber(r.Speed.Runs[i].Label, i))
	}
	return "", text.Of(lang, "entry."+entry.String())
}

// readingName is the label of a reading, or else its side, or its number.
func readingName(lang text.Language, r ReadingRequest, i int) string {
	if r.Label == "" && r.Position != "" {
		return text.Of(lang, "printed.position_"+string(r.Position))
	}
	return nameOrNumber(r.Label, i)
}

// names are what people call the entries at some places.
func (r *CalibrationsRequest) names(lang text.Language, p *sheetParts, at []finding.Place) string {
	var all []string
	for _, place := range at {
		_, name := r.entryName(lang, p, place)
		all = append(all, name)
	}
	return strings.Join(all, ", ")
}
