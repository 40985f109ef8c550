package operation

import (
	"wetrun/internal/text"
)

// ProcedureAnswer is the answer of GET /v1/procedure: the whole job as data.
type ProcedureAnswer struct {
	Source              ProcedureSourceAnswer `json:"source"`
	People              []Notice              `json:"people"`
	ProtectiveEquipment []Notice              `json:"protectiveEquipment"`
	Tools               []Notice              `json:"tools"`
	Stages              []StageAnswer         `json:"stages"`
	Cautions            []Notice              `json:"cautions"`
}

// ProcedureSourceAnswer says where the steps are from.
type ProcedureSourceAnswer struct {
	Kind   string `json:"kind"`
	Detail string `json:"detail"`
}

// StageAnswer is one stage of the job.
type StageAnswer struct {
	ID    string                `json:"id"`
	Text  string                `json:"text"`
	Steps []ProcedureStepAnswer `json:"steps"`
}

// ProcedureStepAnswer is one thing to do.
type ProcedureStepAnswer struct {
	ID           string         `json:"id"`
	Text         string         `json:"text"`
	Who          string         `json:"who"`
	Records      []RecordAnswer `json:"records"`
	Operation    string         `json:"operation,omitempty"`
	Cautions     []string       `json:"cautions,omitempty"`
	CautionTexts []string       `json:"cautionTexts,omitempty"`
}

// RecordAnswer is one thing to write down.
type RecordAnswer struct {
	Code   string `json:"code"`
	Text   string `json:"text"`
	Member string `json:"member,omitempty"`
}

// A stage and its steps, without their words.
type stage struct {
	id    string
	steps []step
}

type step struct {
	id        string
	who       string
	records   []string // keys of recordMembers
	operation string   // one of All, which answers the step
	cautions  []string // those of procedureCautions that matter here above all
}

// Who does a step.
const (
	specialist = "specialist"
	operator   = "operator"
	helper     = "helper"
	mechanic   = "mechanic"
)

var (
	procedurePeople = []string{specialist, operator, helper, mechanic}

	protectiveEquipment = []string{
		"label_list", "chemical_resistant_gloves", "eye_protection", "long_sleeves_and_trousers",
		"waterproof_boots", "apron", "respirator", "hearing_protection", "wash_water",
	}
	procedureTools = []string{
		"label_and_manual", "notebook", "tape_measure", "flags", "stopwatch", "measuring_jugs", "gauges",
		"soft_brush", "hand_tools", "spare_nozzles", "wheel_chocks", "clean_water_supply",
	}
	procedureCautions = []string{
		"clean_water", "protective_equipment", "heat", "rinsate", "label_is_law", "machine_off", "pressure_injects", "first_aid",
		"running_machine", "power_lines", "bystanders", "moving_tractor", "shaft_speed", "drift", "reentry",
		"mixing_equipment", "tank_entry", "do_not_overfill", "backflow", "spills", "local_rules",
	}
)

// Procedure is the answer of GET /v1/procedure.
func Procedure(lang text.Language) any {
	r := ProcedureAnswer{
		Source:              ProcedureSourceAnswer{"common_practice", text.Of(lang, "procedure.source")},
		People:              noticesOf(lang, "person", procedurePeople),
		ProtectiveEquipment: noticesOf(lang, "equipment", protectiveEquipment),
		Tools:               noticesOf(lang, "tool", procedureTools),
		Cautions:            noticesOf(lang, "caution", procedureCautions),
	}
	for _, s := range procedureStages {
		stage := StageAnswer{ID: s.id, Text: text.Of(lang, "stage."+s.id)}
		for _, x := range s.steps {
			records := []RecordAnswer{}
			for _, code := range x.records {
				records = append(records, RecordAnswer{code, text.Of(lang, "record."+code), recordMembers[code]})
			}
			stage.Steps = append(stage.Steps, ProcedureStepAnswer{
				ID: x.id, Text: text.Of(lang, "procedure."+x.id), Who: x.who,
				Records: records, Operation: x.operation, Cautions: x.cautions, CautionTexts: cautionTexts(lang, x.cautions),
			})
		}
		r.Stages = append(r.Stages, stage)
	}
	return r
}
