package text

// areaCheck has no words of its own: its warning is that of application-rate.
var areaCheck = []entry{}
