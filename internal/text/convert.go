package text

// convert has no words of its own: it refuses units as every operation does.
var convert = []entry{}
