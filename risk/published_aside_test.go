package risk

import "strings"

// asides are the rows that cannot be held against this model, by reason.
func (l *lab) asides() []aside {
	under := func(prefix string, rows string) (ids []string) {
		for _, row := range strings.Split(rows, "; ") {
			ids = append(ids, prefix+row)
		}
		return ids
	}
	join := func(lists ...[]string) (ids []string) {
		for _, x := range lists {
			ids = append(ids, x...)
		}
		return ids
	}
	return append(append(loadAsides(), furtherAsides()...), []aside{
		{"the same result as another row that is tested", join(
			under("crops/cucumber/", "field_heat_failure; visits_needed; soil_dry_set"),
			under("crops/summer_squash/", "pollen_life_30C_dry; pollen_life_20C_dry; visits_needed_squash_bee; visits_needed_male_squash_bee; visit_equivalence; parthenocarpy"),
			under("crops/pumpkin_winter_squash/", "pollen_deposit_window; set_zero_after; pollen_viability_open; heat_bud_loss; visits_needed_apis; visits_needed_apis_maxima; pollen_grains_needed_wizard; pollen_grains_needed_hokkaido"),
			under("crops/muskmelon/", "visits_needed"),
			under("crops/watermelon_seeded/", "visits_needed; pollen_grains_needed; pollen_grains_uniform"),
			under("crops/watermelon_triploid/", "visits_needed"),
			under("crops/sweet_corn/", "heat_11days_40C; silk_receptive_max"),
			under("crops/tomato/", "mean_daily_fail; visits_needed"),
			under("crops/common_bean/", "heat_37_26"),
			under("wet/", "corn_pollen/exposed to dry air; corn_silk/receptive life; cucurbit_turgor/plants flagging at noon; tomato_RH/day RH 50 raised to 70"),
			under("bees/honey_bee/", "wind_rate_ratio_3ms; wind_slope_0_3ms"),
			under("bees/bumble_bee/", "weather_tolerance"),
			under("bees/squash_bee/", "start_dawn"))},
		{"no bee group of that kind in the model", join(
			[]string{"visits/pfister_halictid"},
			under("bees/sweat_bee/", "temp_min_forage; temp_upper_operative; start_stop; visits_spread"),
			under("bees/mason_bee/", "temp_full_activity; radiation_full_activity"))},
		{"how many bees a place has is an input, not a result", join(
			under("bees/squash_bee/", "full_pollination_after_males; precedence; visits_per_flower_day"))},
		{"field set without bee counts or weather; the model speaks of the share of flowers that may set", under("visits/", "stapleton92; stapleton93")},
		{"a gain over fruit that set without pollen, of which the model gives no share (see knapp_exclude)", under("visits/", "knapp_gain")},
		{"visits to tomato flowers are not in the model, only shaking by wind", join(
			under("visits/", "morandin_1; morandin_2; morandin_3; morandin_4; kingsaud"),
			under("crops/tomato/", "visits_needed_alt; pollen_grains_plateau"))},
		{"seeds of tomatoes are not in the model, only fruit that sets", under("visits/", "peet_29_seed")},
		{"a correlation; the counts behind it were not seen", join(under("visits/", "clarke_r2; maize_pv; wm_seed_corr"), under("bees/honey_bee/", "model_r2_temp_and_radiation"))},
		{"temperature and dryness of the sowing were not seen", join(under("visits/", "maize_drop"), under("wet/", "corn_pollen/hot and dry sowing date (field)"))},
		{"soil and plant water are not in this model", join(
			under("visits/", "maize_wd1; maize_wd2"),
			under("crops/sweet_corn/", "silk_low_water_set; drought_kernel_loss; silk_delay_drought; pollen_desiccation_ok"),
			under("wet/", "corn_pollen/water loss of grain; corn_silk/silk growth zero below; corn_silk/low water 3 days after first silk; corn_silk/low water 5 days after first silk; corn_ASI/drought; corn_ASI/stress lengthens interval; corn_kernels/irrigation withheld V13-VT; corn_kernels/irrigation withheld R1-R2; cucurbit_irrigation/overhead watering while flowers open"))},
		{"the weather of the claim is not told in numbers", under("crops/sweet_corn/", "pollen_life_favourable; pollen_life_popular; silk_delay_heat")},
		{"in vitro; the model takes the excised flowers of the same paper", under("crops/cucumber/", "pollen_tube_opt_in_vitro; pollen_tube_min; pollen_tube_max_in_vitro")},
		{"shape of fruit and place of seeds are not reckoned", join(
			under("crops/sweet_pepper/", "pre_anthesis_low_18; pre_anthesis_high_35"),
			under("crops/common_bean/", "heat_seed_position"))},
		{"sex of flowers and seeds per fruit are not reckoned", join(
			under("crops/cucumber/", "sex_shift; female_bud_faster"),
			under("visits/", "pohly_400"),
			under("crops/pumpkin_winter_squash/", "heat_male_shift_night; seeds_min"))},
		{"nothing was found", under("crops/cucumber/", "night_temp_damage; pollen_grains_needed")},
		{"common practice or from memory: no published result", join(
			under("crops/cucumber/", "pollen_life_hot; flower_open_local"),
			under("wet/", "corn_rain/several wet mornings running; tomato_RH/optimum; pollen_general/rain moulds pollen; choanephora/temperature favouring; leaf_wet_proxy/RH threshold for wetness; leaf_wet_proxy/dew-point depression"),
			under("bees/honey_bee/", "temp_min_orchard_memory; temp_optimum; temp_upper_slow; wind_stop_popular; wind_stop_popular_15mph; rain_threshold; flight_hour_rule; start_relative_sunrise; stop_relative_sunset"),
			under("bees/bumble_bee/", "temp_min_queen_hardy; temp_full_activity; wind_stop; start_relative_sunrise"),
			under("bees/squash_bee/", "stop_local_hour; temp_upper"))},
		{"coefficients of another model, recalled, and its thresholds not found", under("bees/all_social/", "tg_intercept; tg_ta_coef; tg_r_coef; activity_intercept; activity_slope; corbet_thresholds")},
		{"physiology of bees, not how many are out", join(
			under("bees/honey_bee/", "temp_positive_heat_balance; temp_flying_time_declines; thorax_temp_regulated; flight_speed_unloaded; flight_speed_loaded"),
			under("bees/bumble_bee/", "thorax_min_takeoff; pollen_load_heating; light_temperature"))},
		{"the air inside a greenhouse is not in the model", under("bees/honey_bee/", "hour_peak_greenhouse_watermelon")},
		{"apple, strawberry and wild plants; the stand-in for mould is tested in risk/pollen", under("wet/", "pollen_general/rain on flowers; pollen_general/80 species in China: fully sheltered 20, fully exposed 44; pollen_general/rain reviews; botrytis_flower/optimum temperature; botrytis_flower/falls outside; botrytis_fruit/20 C and 32 h wet; botrytis_flower/logit; botrytis_general/spores germinate fast in a water film, poorly in saturated air; phytophthora_fruit/17-25 C, over 1 h wet; choanephora/squash flowers")},
		{"humidity of the air is not in the tomato's set", under("wet/", "tomato_RH/RH too high; tomato_RH/RH too low")},
		{"what is done after the brush, and flowers of the day before, are not in the model", under("hand/", "cucurbits/bag_after; cucumber/day_after")},
		{"an equation, tested in risk/air", []string{"bees/all/wind_10m_to_2m"}},
	}...)
}
