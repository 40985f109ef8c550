package calc

import (
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// A NozzleSize is one size of ISO 10625 with its colour and both ratings.
type NozzleSize struct {
	Size   SizeName
	Colour string
	At3Bar unit.FlowRate
	At40   unit.FlowRate // at 40 psi
	// SourceNotRead marks sizes whose values were not read in a source.
	SourceNotRead bool
}

// A SizeName is what ISO 10625 calls a size, such as "02".
type SizeName string

// Words lists the sizes.
func (SizeName) Words() []string {
	var names []string
	for i := range nozzleSizes {
		names = append(names, string(nozzleSizes[i].Size))
	}
	return names
}

// NozzleSizes lists the sizes of ISO 10625. The standard is meant for nozzles
// whose flow one part sets. Sources: US gal/min at 40 psi, University of Arizona
// sheet citing ISO 10625, 2012, seen in a copy only; L/min at 2 bar, ILVO,
// https://keuringspuittoestellen.ilvo.vlaanderen.be , which are the 3 bar values times
// sqrt(2/3). No source was read for sizes 10, 15 and 20.
func NozzleSizes() []NozzleSize { return append([]NozzleSize(nil), nozzleSizes[:]...) }

var nozzleSizes = [...]NozzleSize{
	{"01", "orange", 0.4 * unit.LitrePerMinute, 0.10 * unit.USGallonPerMinute, false},
	{"015", "green", 0.6 * unit.LitrePerMinute, 0.15 * unit.USGallonPerMinute, false},
	{"02", "yellow", 0.8 * unit.LitrePerMinute, 0.20 * unit.USGallonPerMinute, false},
	{"025", "lilac", 1.0 * unit.LitrePerMinute, 0.25 * unit.USGallonPerMinute, false},
	{"03", "blue", 1.2 * unit.LitrePerMinute, 0.30 * unit.USGallonPerMinute, false},
	{"04", "red", 1.6 * unit.LitrePerMinute, 0.40 * unit.USGallonPerMinute, false},
	{"05", "brown", 2.0 * unit.LitrePerMinute, 0.50 * unit.USGallonPerMinute, false},
	{"06", "grey", 2.4 * unit.LitrePerMinute, 0.60 * unit.USGallonPerMinute, false},
	{"08", "white", 3.2 * unit.LitrePerMinute, 0.80 * unit.USGallonPerMinute, false},
	{"10", "light blue", 4.0 * unit.LitrePerMinute, 1.0 * unit.USGallonPerMinute, true},
	{"15", "light green", 6.0 * unit.LitrePerMinute, 1.5 * unit.USGallonPerMinute, true},
	{"20", "black", 8.0 * unit.LitrePerMinute, 2.0 * unit.USGallonPerMinute, true},
}

// A NozzleSizeSource says where one thing of NozzleSizes was read.
type NozzleSizeSource struct {
	About            string // one of the ratings, or scope
	Title, Publisher string
	Year             int // 0 when the source shows none
	URL              string
}

// NozzleSizeSources lists them; the list is the caller's own. What SourceNotRead
// marks is in none of them.
func NozzleSizeSources() []NozzleSizeSource {
	return []NozzleSizeSource{
		{string(US40PSI), "Sheet of nozzle sizes and colours, citing ISO 10625", "University of Arizona" + method.SeenInCopy, 2012, ""},
		{string(ISO3Bar), "Spuitdoppen: het bos en de bomen (ISO coding table)", "ILVO (Flemish official sprayer inspection service)", 0,
			"https://keuringspuittoestellen.ilvo.vlaanderen.be/nl/documenten/spuitdoppen-het-bos-en-de-bomen"},
		{"scope", "Equipment for crop protection. Sprayer nozzles. Colour coding for identification", "BSI (page of the standard)", 0,
			"https://knowledge.bsigroup.com/products/equipment-for-crop-protection-sprayer-nozzles-colour-coding-for-identification-1"},
	}
}
