package text

var calibrations = []entry{}
