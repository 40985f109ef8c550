// Package record lays a field sheet out as one page to print, sign and file. It gets
// every word and number ready to show; it decides only where they stand.
package record

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
)

// A Page is what a record shows, in the order of the page.
type Page struct {
	Language string // BCP 47
	Title    string
	Label    string // of the sheet, as its user named it
	Verdict  Verdict
	Filed    []Fact // of the day, the people and what is sprayed; one without a value is a line to fill in
	Facts    []Fact // of the machine and the target
	Steps    Lines
	Parts    []Part
	Note     string // on how well the numbers are known
	Plans    *Table
	Warnings Lines
	Working  *Table
	Cautions Lines
	Sign     []string // what to write on the lines at the end
	Digest   Digest
}

// wide tells whether a part needs the width of the page.
func (p Part) wide() bool { return p.Table != nil && p.Table.Chart != nil }

// halves tells whether a table on paper can go on beside itself.
func (t *Table) halves() bool { return t.Chart != nil && len(t.Heads) <= mostHeadsOfHalf }

const mostHeadsOfHalf = 4 // beside the chart

// A Verdict is how the sheet came out.
type Verdict struct{ Code, Word, Detail string }

// A Fact is a name and what it is; without a value there is room to write it.
type Fact struct{ Name, Value string }

// Lines are some lines under a heading.
type Lines struct {
	Heading string
	Lines   []string
}

// A Part is one part of the job.
type Part struct {
	Heading string
	Status  string // code: passed, failed, not_done
	Word    string // of the status
	Lines   []string
	Table   *Table
}

// A Table has a heading for each column, and a chart as one more column where there is
// one.
type Table struct {
	Caption string
	Heads   []string
	Rows    []Row
	Chart   *Chart
}

// A Row is one row of a table. One that is marked stands out, one that is replaced counts
// no more.
type Row struct {
	Marked, Replaced bool
	Cells            []string
	Point            *Point
}

// A Digest ties the page to the request that it was made from.
type Digest struct{ Name, Value, Explanation string }

//go:embed page.css
var style string

// StyleSource allows the style of a record in a Content-Security-Policy: that of the
// record, and that of a page that opens one.
var StyleSource = func() string {
	sum := sha256.Sum256([]byte(style))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}()

// Policy is the Content-Security-Policy of a record: its own style and nothing else.
var Policy = "default-src 'none'; style-src " + StyleSource + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
