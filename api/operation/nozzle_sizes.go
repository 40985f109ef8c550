package operation

import (
	"github.com/go-json-experiment/json"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// NozzleSizesAnswer is the answer of GET /v1/nozzle-sizes.
type NozzleSizesAnswer struct {
	Detail   string             `json:"detail"`
	Sizes    []NozzleSizeAnswer `json:"sizes"`
	Sources  []NozzleSizeSource `json:"sources"`
	Cautions []Notice           `json:"cautions"`
}

// NozzleSizeAnswer is one size with its colour and both ratings.
type NozzleSizeAnswer struct {
	Size          calc.SizeName      `json:"size"`
	Color         string             `json:"color"`
	Ratings       []SizeRatingAnswer `json:"ratings"`
	SourceNotRead bool               `json:"sourceNotRead"`
}

// SizeRatingAnswer is what a size means by one rating.
type SizeRatingAnswer struct {
	SizeRating    calc.SizeRating `json:"sizeRating"`
	RatedFlowRate wire.Quantity   `json:"ratedFlowRate"`
	RatedPressure wire.Quantity   `json:"ratedPressure"`
}

// NozzleSizeSource says where one thing of the list was read.
type NozzleSizeSource struct {
	About     string `json:"about"`
	Title     string `json:"title"`
	Publisher string `json:"publisher"`
	Year      int    `json:"year,omitzero"`
	URL       string `json:"url,omitzero"`
	Detail    string `json:"detail"`
}

// NozzleSizes is the answer of GET /v1/nozzle-sizes, encoded as Tolerances is.
func NozzleSizes(lang text.Language) ([]byte, error) {
	r := NozzleSizesAnswer{
		Detail:   text.Of(lang, "nozzle_sizes.detail"),
		Cautions: []Notice{{"iso_10625_scope", text.Of(lang, "caution.iso_10625_scope")}},
	}
	for _, s := range calc.NozzleSizes() {
		r.Sizes = append(r.Sizes, NozzleSizeAnswer{
			Size: s.Size, Color: s.Colour, SourceNotRead: s.SourceNotRead,
			Ratings: []SizeRatingAnswer{
				{calc.ISO3Bar, wire.In(s.At3Bar, unit.IDLMin), wire.In(3*unit.Bar, unit.IDBar)},
				{calc.US40PSI, wire.In(s.At40, unit.IDGalUsMin), wire.In(40*unit.PoundPerSquareInch, unit.IDPsi)},
			},
		})
	}
	for _, s := range calc.NozzleSizeSources() {
		r.Sources = append(r.Sources, NozzleSizeSource{
			s.About, s.Title, s.Publisher, s.Year, s.URL, text.Of(lang, "nozzle_sizes."+s.About),
		})
	}
	return json.Marshal(&r)
}

// colorOf is the colour of a size.
func colorOf(size calc.SizeName) string {
	for _, s := range calc.NozzleSizes() {
		if s.Size == size {
			return s.Colour
		}
	}
	return ""
}
