package operation

// What is filed with a sheet and decides nothing: the record prints it, and leaves a line to
// fill in by hand for what is missing.

// PeopleRequest is who did what.
type PeopleRequest struct {
	Driver  string `json:"driver,omitzero"`
	Catcher string `json:"catcher,omitzero"`
	Timer   string `json:"timer,omitzero"`
}

// ProductRequest is a product that is to be sprayed, as its label names it.
type ProductRequest struct {
	Name string `json:"name" validate:"required"`
}

// ConditionsRequest is the weather in the crew's own words.
type ConditionsRequest struct {
	Weather     string `json:"weather,omitzero"`
	Wind        string `json:"wind,omitzero"`
	Temperature string `json:"temperature,omitzero"`
	Humidity    string `json:"humidity,omitzero"`
}
