package crop

import "testing"

func TestEveryCropLoads(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatalf("crop files:\n%v", err)
	}
	for _, c := range set.Crops() {
		t.Logf("%s: %d numbers and facts", c.Key, len(c.Params))
	}
}
