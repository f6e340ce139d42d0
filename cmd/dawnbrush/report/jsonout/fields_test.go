package jsonout_test

import (
	"slices"
	"strings"
)

// under writes fields below a prefix: under("a.", "b c") is a.b, a.c.
func under(prefix, list string) []string {
	out := strings.Fields(list)
	for i := range out {
		out[i] = prefix + out[i]
	}
	return out
}

func sorted(lists ...[]string) []string {
	out := slices.Concat(lists...)
	slices.Sort(out)
	return slices.Compact(out)
}

const (
	gardenFields   = "name latitude_deg longitude_deg zone"
	forecastFields = "feed source attribution issued fetched age_min stale stale_why instead_of"
	weatherFields  = `high_c high_at low_c night_low_c morning_wind_10m_ms rain_chance rain_mm rain_from cloud_share over_105f
		bees_out_h.honey_bee bees_out_h.bumble_bee bees_out_h.squash_bee sunrise_to_noon_h hours_without_temperature`
	flagFields = "kind kept_in_by from to value limit unit chance since_date until_date param source where status text"
	taskFields = `kind planting crop from to causes[] flowers flowers_in_time flowers_counted work_min fill_without.p10 fill_without.p50 fill_without.p90
		fill_with.p10 fill_with.p50 fill_with.p90 gain sure look also[] tagged_date second_best_hours rain_chance store_h text`
	lookFields     = "look.at look.watch_min look.flowers look.brush_if_fewer_visits look.bees[]"
	plantingFields = `name crop type bloom bloom_basis state set.p10 set.p50 set.p90 fill.p10 fill.p50 fill.p90 fill_with_brush.p10 fill_with_brush.p50
		fill_with_brush.p90 set_with_brush.p10 set_with_brush.p50 set_with_brush.p90 brush_from brush_to brush_share opens closes days_before_leave load ears dry_soil wind_over_rows unknown_layers[] inside too_hot_outside`
	earsFields = `filled.p10 filled.p50 filled.p90 filled_if_shaken.p10 filled_if_shaken.p50 filled_if_shaken.p90 butt.p10 butt.p50 butt.p90
		middle.p10 middle.p50 middle.p90 tip.p10 tip.p50 tip.p90 left_by_heat.p10 left_by_heat.p50 left_by_heat.p90 waiting waiting_part unknown_days`
	flowerHourFields = `start open pollen_alive heat tube receptive offer dry rain_chance brush flight.honey_bee flight.bumble_bee flight.squash_bee
		share_of_bees_work`
	rangeFields  = "p10 p50 p90"
	adviceFields = `verdict water_mm less_for_rain_mm water_l water_range_l each_pot_l per_plant_l run_min cans times from to depth_m causes[] rain_chance left_if_no_rain days_until_short sure
		gauge_would_settle keep_leaves_dry text`
	bedFields      = "name kind area_m2 plantings[] goes_by not_reckoned table_crop borrowed assumed[] start cover share_of_outdoor swing season"
	waterDayFields = `date past reference_mm reference_by reference_outdoors_mm reference_range_mm by_logger by_share_of_logged_days rain_mm rain_by rain_chance given_mm given_l taken_mm rain_on_soil_mm evaporation_mm transpiration_mm intercepted_mm drainage_mm
		kcb ke kr few ks taw_mm raw_mm lacks_mm left left_at_night left_if_heeded used_mm_if_heeded gap advice`
	hourFields  = "start temp_c dew_point_c humidity_percent wind_10m_ms wind_from_deg cloud_share radiation_w_m2 rain_mm rain_chance thunder_chance origin"
	blockFields = "from to rain_mm rain_chance"
	paramFields = "name kind value low high curve curve[][] curve_x_unit text unit source where status note row"
	otherFields = "value low high text unit source where status row"
	normFields  = "book_low book_high garden_low garden_middle garden_high n n_own_cultivar"
	setFields   = "flowers mean low high"
	faultFields = "file line column message hint warning"
)

func planFields() []string {
	return sorted(under("", "schema report made demo complete notes[] credits[] sources.*"), under("garden.", gardenFields), under("forecast.", forecastFields),
		under("second_forecast.forecast.", forecastFields), under("second_forecast.differences[].", "from until layer here there"),
		under("second_forecast.plantings[].", "date planting here[] there[]"),
		under("gaps[].", "date plantings[] beds[] unknown_layers[]"),
		under("days[].", "date sunrise sunset is_forecast is_whole unknown_layers[] work_heat"), under("days[].weather.", weatherFields), under("days[].flags[].", flagFields),
		under("days[].tasks[].", taskFields), under("days[].tasks[].", lookFields), under("days[].rest[].", taskFields), under("days[].more[].", taskFields),
		under("days[].plantings[].", plantingFields), under("days[].plantings[].flags[].", flagFields), under("days[].plantings[].hours[].", flowerHourFields),
		under("days[].water[].", "bed left "+adviceFields), under("days[].water[].left.", rangeFields))
}

// accountFields are those of a bed's account.
func accountFields(at string) []string {
	day := at + "days[]."
	return sorted(under(at, bedFields), under(at+"swing.", "share uneven"), under(at+"season.", "days given_l inch_a_week_l wanted_l watering_noted"),
		under(day, waterDayFields), under(day+"rain_mm.", rangeFields), under(day+"lacks_mm.", rangeFields), under(day+"left.", rangeFields),
		under(day+"left_at_night.", rangeFields), under(day+"left_if_heeded.", rangeFields), under(day+"advice.", adviceFields))
}

func waterFields() []string {
	return sorted(under("", "schema report made demo complete notes[] credits[] cautions[] sources.*"), under("gaps[].", "date plantings[] beds[] unknown_layers[]"),
		under("garden.", gardenFields), under("forecast.", forecastFields), accountFields("beds[]."))
}

func workingsFields() []string {
	return sorted(under("", "schema report date sources.*"), under("garden.", gardenFields), under("forecast.", forecastFields), under("weather.", weatherFields),
		under("hours[].", hourFields), under("rain_blocks[].", blockFields), under("flags[].", flagFields), under("plantings[].", plantingFields),
		under("plantings[].flags[].", flagFields), under("plantings[].hours[].", flowerHourFields), under("params.*[].", paramFields),
		under("first_flowers[].", "planting seen not_used"), firstFields("first_flowers[]."),
		under("params.*[].others[].", otherFields), accountFields("water[]."))
}

func mattersFields() []string {
	outcome := "set fill fill_with_brush of_kernels task"
	return sorted(under("", "schema report date sources.*"), under("garden.", gardenFields), under("forecast.", forecastFields),
		under("what_matters[].", "planting crop state bloom judged"), under("what_matters[].as_planned.", outcome),
		under("what_matters[].inputs[].", "input one_can moves task_changes text to_narrow"),
		under("what_matters[].inputs[].doubt.", paramFields), under("what_matters[].inputs[].doubt.others[].", otherFields),
		under("what_matters[].inputs[].at_low.", outcome), under("what_matters[].inputs[].at_high.", outcome))
}

func sourcesFields() []string {
	return sorted(under("", "schema report sources.*"), under("params.*[].", paramFields), under("params.*[].others[].", otherFields))
}

func publishedFields() []string {
	return sorted(under("", "schema report score.hits score.rows_held sources.*"),
		under("subjects[].", `subject unforced.hits unforced.rows_held fitted.hits fitted.rows_held by_construction.hits by_construction.rows_held
			numbers numbers_published numbers_derived numbers_free numbers_drawn`),
		under("rows[].", `row subject setting published low high unit rule rule_low rule_high model verdict standing must reason source where status
			held_by[].crop held_by[].param held_by[].names_it held_by[].drawn_to_it`),
		under("left_out[].", "drawing crops[] drawn_params[] way row value_text redrawn_text changes[].row changes[].verdict note"))
}

func failureFields() []string {
	return sorted(under("", "schema report error.code error.message error.hint"), under("error.faults[].", faultFields))
}

func settingsFields() []string {
	return sorted(under("", "schema report file"), under("settings[].", "table key value from line"), under("warnings[].", faultFields))
}

func firstFields(at string) []string {
	return sorted(under(at, "sex"), under(at+"degree_days_c.", normFields), under(at+"days.", normFields))
}

func learnedFields() []string {
	return sorted(under("", "schema report"), under("bees.", "counts not_used visits visits_expected latest"), under("set_by_hand.", setFields),
		under("kinds[].", "crop species"), firstFields("kinds[].first_flowers[]."), under("kinds[].seen[].", "planting cultivar sex date days degree_days_c used text"),
		under("kinds[].brush_against_bees.", "days_both_counted chance told"), under("kinds[].brush_against_bees.set_by_hand.", setFields),
		under("kinds[].brush_against_bees.set_by_bees.", setFields), under("kinds[].cultivars[].", "name"), firstFields("kinds[].cultivars[].first_flowers[]."), under("kinds[].cultivars[].set_by_bees.", setFields),
		under("kinds[].cultivars[].set_by_hand.", setFields), under("kinds[].compared[].", "topic better other chance told degree_days_c days n[] days_both_counted text"))
}
