package growth

import "dawnbrush/risk/source"

// Params lists every number of the dates that belongs to no crop, with its origin.
func Params() []source.Param {
	chosen := source.Choice
	num := func(v float64) *float64 { return &v }
	cultivars := chosen("growth.cultivar_share", cultivarShare, "share of variance", "of a book's range, what cultivars differ by: as much as sowings do")
	cultivars.Others = []source.Alternative{{Range: &source.Interval{Low: 26, High: 45}, Unit: "days", Text: "866 cucumbers of one trial to the first male flower", Key: "RDW97", Where: "ch. 1", Status: source.Read}}
	sowings := chosen("growth.sowing_share", sowingShare, "share of variance", "of a book's range, what sowings of one cultivar differ by: as much as cultivars do")
	sowings.Others = []source.Alternative{{Value: num(20), Unit: "days", Text: "sowings of a squash cultivar in Georgia lay up to so far apart", Key: "NeSmith94", Where: "abstract", Status: source.Read}}
	spread := chosen("growth.sum_spread", sumSpread, "1", "spread of the logarithm of degree days from sowing to sowing: growth.sum_slack read as the middle 90 %")
	spread.Others = []source.Alternative{{Text: "over ten planting dates of cucumber sums were steadier than days", Key: "WehGun04", Where: "abstract", Status: source.Read}}
	return []source.Param{
		chosen("growth.sum_slack", sumSlack, "share", "either way of a published sum; cultivars of one kind differ by about a tenth"),
		chosen("growth.rate_slack", rateSlack, "share", "the warmth of the days to come strays by about a fifth from the last fortnight's"),
		chosen("growth.min_known", minKnown, "share", "of the days since sowing must have temperatures for a date from warmth"),
		chosen("growth.garden_share", gardenShare, "share of variance", "of a book's range, what gardens differ by: less than cultivars or sowings, for one sows when the books say"),
		cultivars, sowings, spread,
		chosen("growth.climate_spread", climateSpread, "1", "spread of the logarithm of the warmth of a garden's sowings against that behind the book's days: growth.rate_slack read as the middle 90 %"),
		chosen("growth.most_unknown", mostUnknown, "share", "of a span's days that may lack temperatures for its sum to be learned"),
		chosen("growth.reasonable", reasonable, "times the book's middle", "a first flower after more days, or after a third of them, is taken for a slip"),
	}
}
