package unit_test

import (
	"regexp"
	"strings"
	"testing"

	"wetrun/calc/unit"
)

// publishedCodes are the codes of other systems, typed from what was read:
//
//   - UCUM, validated with ucum-lhc 7.1.10, National Library of Medicine;
//   - UN/CEFACT Recommendation 20, Revision 17e, 2021, in the copy of
//     https://github.com/datasets/unece-units-of-measure ;
//   - AgGateway ADAPT Standard 1.0.0, https://github.com/ADAPT/Standard , where l1ha-1,
//     kg1ha-1 and m1sec-1 were read and the other compounds follow by the same rule.
//
// A dash is for a unit that the system has no code for. Deprecated codes of Rec 20
// are not used: PT and QT gave way to PTL and QTL, 64 to PS (80 is absolute
// pressure), KTM to KMT. HAR is marked deprecated in that copy, without another.
const publishedCodes = `
L            L                    LTR l
mL           mL                   MLT ml
gal_us       [gal_us]             GLL gal
gal_imp      [gal_br]             GLI igal
fl_oz_us     [foz_us]             OZA floz
fl_oz_imp    [foz_br]             OZI -
pt_us        [pt_us]              PTL pt
qt_us        [qt_us]              QTL qt
ha           har                  HAR ha
acre         [acr_us]             ACR ac
m2           m2                   MTK -
ft2          [sft_i]              FTK -
m            m                    MTR m
cm           cm                   CMT cm
mm           mm                   MMT mm
km           km                   KMT km
ft           [ft_i]               FOT ft
in           [in_i]               INH in
mi           [mi_i]               SMI mi
kg           kg                   KGM kg
g            g                    GRM g
lb           [lb_av]              LBR lb
oz           [oz_av]              ONZ ozm
bar          bar                  BAR bar
kPa          kPa                  KPA kPa
psi          [psi]                PS  PSI
L/min        L/min                L2  l1min-1
mL/min       mL/min               41  ml1min-1
gal_us/min   [gal_us]/min         G2  gal1min-1
gal_imp/min  [gal_br]/min         G3  igal1min-1
fl_oz_us/min [foz_us]/min         K11 floz1min-1
km/h         km/h                 KMH km1hr-1
mph          [mi_i]/h             HM  mi1hr-1
m/s          m/s                  MTS m1sec-1
m/min        m/min                2X  m1min-1
ft/min       [ft_i]/min           FR  ft1min-1
L/ha         L/har                -   l1ha-1
gal_us/acre  [gal_us]/[acr_us]    -   gal1ac-1
mL/ha        mL/har               -   ml1ha-1
fl_oz_us/acre [foz_us]/[acr_us]   -   floz1ac-1
kg/ha        kg/har               -   kg1ha-1
lb/acre      [lb_av]/[acr_us]     -   lb1ac-1
s            s                    SEC sec
min          min                  MIN min
h            h                    HUR hr
%            %                    P1  prcnt
rpm          {rev}/min            RPM -
`

// TestPublishedCodes holds the table to publishedCodes.
func TestPublishedCodes(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(publishedCodes)) {
		row := strings.Fields(strings.ReplaceAll(line, " -", " \x00"))
		if len(row) != 4 {
			t.Fatal("a row of", len(row), line)
		}
		for i := range row {
			row[i] = strings.Trim(row[i], "\x00")
		}
		u, ok := infoOf(row[0])
		if !ok {
			t.Errorf("there is no unit %s", row[0])
			continue
		}
		if got := []string{u.Symbol, u.UCUM, u.Rec20, u.ADAPT}; strings.Join(got, " ") != strings.Join(row, " ") {
			t.Errorf("%s has %q, the systems have %q", u.Symbol, got[1:], row[1:])
		}
	}
}

func infoOf(symbol string) (unit.Info, bool) {
	for _, u := range unit.All() {
		if u.Symbol == symbol {
			return u, true
		}
	}
	return unit.Info{}, false
}

// TestCodesFollowTheirRules: what publishedCodes leaves out is composed from it. A
// quotient in UCUM is the one of its parts; in ADAPT each symbol has its exponent
// after it; Rec 20 has no code for any rate, so none may be made up.
func TestCodesFollowTheirRules(t *testing.T) {
	adapt := regexp.MustCompile(`^[a-zA-Z]+1[a-zA-Z]+-1$`)
	for _, u := range unit.All() {
		over, under, quotient := strings.Cut(u.Symbol, "/")
		if !quotient || strings.HasPrefix(under, "1000") || under == "m3" {
			continue
		}
		a, okA := infoOf(over)
		b, okB := infoOf(under)
		if !okA || !okB {
			t.Fatalf("%s is made of parts that are not listed", u.Symbol)
		}
		if want := a.UCUM + "/" + b.UCUM; u.UCUM != want {
			t.Errorf("%s: UCUM %s, its parts make %s", u.Symbol, u.UCUM, want)
		}
		if want := a.ADAPT + "1" + b.ADAPT + "-1"; u.ADAPT != want || !adapt.MatchString(u.ADAPT) {
			t.Errorf("%s: ADAPT %s, its parts make %s", u.Symbol, u.ADAPT, want)
		}
		if (u.Quantity == unit.KindApplicationRate || u.Quantity == unit.KindMassRate) && u.Rec20 != "" {
			t.Errorf("%s: Rec 20 has no code for a rate, not %s", u.Symbol, u.Rec20)
		}
	}
}
