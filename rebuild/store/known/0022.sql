BEGIN IMMEDIATE;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
CREATE TABLE act (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind VARCHAR NOT NULL, 
	subject VARCHAR NOT NULL, 
	at VARCHAR(19) NOT NULL, 
	window VARCHAR NOT NULL, 
	reverses INTEGER, 
	undone BOOLEAN NOT NULL, 
	sealed BOOLEAN NOT NULL
, crc INTEGER);
CREATE INDEX ix_act_undone ON act (undone, sealed, id);
CREATE TABLE instrument (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	unit VARCHAR NOT NULL, 
	resolution_text VARCHAR, 
	resolution_unit VARCHAR, 
	resolution_mm DOUBLE, 
	mpe_text VARCHAR, 
	mpe_unit VARCHAR, 
	mpe_mm DOUBLE, 
	uncertainty_text VARCHAR, 
	uncertainty_unit VARCHAR, 
	uncertainty_mm DOUBLE, 
	coverage_k DOUBLE NOT NULL, 
	limit_source VARCHAR NOT NULL, 
	calibrated_on VARCHAR(19), 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL
, least_text VARCHAR, least_unit VARCHAR, least_mm DOUBLE, most_text VARCHAR, most_unit VARCHAR, most_mm DOUBLE, measures VARCHAR);
CREATE TABLE kept_entry (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	at VARCHAR(19) NOT NULL, 
	meant_for VARCHAR NOT NULL, 
	typed VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	settled BOOLEAN NOT NULL
, crc INTEGER);
CREATE TABLE machine (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	maker VARCHAR NOT NULL, 
	model VARCHAR NOT NULL, 
	serial VARCHAR NOT NULL, 
	serial_where VARCHAR NOT NULL, 
	stampings VARCHAR NOT NULL, 
	year VARCHAR NOT NULL, 
	year_basis VARCHAR NOT NULL, 
	unit VARCHAR NOT NULL, 
	capacity VARCHAR NOT NULL, 
	weight VARCHAR NOT NULL, 
	power_found VARCHAR NOT NULL, 
	power_planned VARCHAR NOT NULL, 
	scope VARCHAR(40) NOT NULL, 
	location VARCHAR NOT NULL, 
	bought VARCHAR NOT NULL, 
	story VARCHAR NOT NULL, 
	position INTEGER NOT NULL
);
CREATE TABLE place (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind VARCHAR(40) NOT NULL, 
	name VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	since VARCHAR(19)
);
CREATE TABLE setting (
	"key" VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, crc INTEGER, 
	CONSTRAINT pk_setting PRIMARY KEY ("key")
);
CREATE TABLE change (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	act_id INTEGER NOT NULL, 
	tbl VARCHAR NOT NULL, 
	row_id INTEGER NOT NULL, 
	op VARCHAR NOT NULL, 
	CONSTRAINT fk_change_act_id_act FOREIGN KEY(act_id) REFERENCES act (id) ON DELETE CASCADE
);
CREATE INDEX ix_change_act ON change (act_id, id);
CREATE INDEX ix_change_row ON change (tbl, row_id, id);
CREATE TABLE log_entry (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	at VARCHAR(19) NOT NULL, 
	hours DOUBLE, 
	temperature_c DOUBLE, 
	did VARCHAR NOT NULL, 
	found VARCHAR NOT NULL, 
	left_on_bench VARCHAR NOT NULL, 
	next_step VARCHAR NOT NULL, 
	blocked_by VARCHAR NOT NULL, 
	do_not_forget VARCHAR NOT NULL, 
	CONSTRAINT fk_log_entry_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_log_entry_machine_at ON log_entry (machine_id, at);
CREATE TABLE matched_set (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_matched_set_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_matched_set_machine_id ON matched_set (machine_id);
CREATE TABLE subassembly (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	parent_id INTEGER, 
	code VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	scope VARCHAR(40), 
	manual_page VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_subassembly_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_subassembly_parent_id_subassembly FOREIGN KEY(parent_id) REFERENCES subassembly (id) ON DELETE CASCADE
);
CREATE INDEX ix_subassembly_machine_position ON subassembly (machine_id, parent_id, position);
CREATE INDEX ix_subassembly_parent_id ON subassembly (parent_id);
CREATE TABLE part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	code VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	other_names VARCHAR NOT NULL, 
	quantity INTEGER NOT NULL, 
	identity VARCHAR(40) NOT NULL, 
	suspects VARCHAR NOT NULL, 
	origin VARCHAR(40) NOT NULL, 
	material VARCHAR NOT NULL, 
	condition VARCHAR NOT NULL, 
	decision VARCHAR(40) NOT NULL, 
	decision_reason VARCHAR NOT NULL, 
	decision_criterion VARCHAR NOT NULL, 
	decision_would_change VARCHAR NOT NULL, 
	decided_at VARCHAR(19), 
	place_id INTEGER, 
	placed_at VARCHAR(19), 
	match_mark VARCHAR NOT NULL, 
	orientation VARCHAR NOT NULL, 
	matched_set_id INTEGER, 
	figure_item VARCHAR NOT NULL, 
	maker_number VARCHAR NOT NULL, 
	stamped VARCHAR NOT NULL, 
	handedness VARCHAR NOT NULL, 
	spare_of_id INTEGER, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, decision_method VARCHAR, decision_value VARCHAR, decision_cost DOUBLE, decision_work_min DOUBLE, decision_wait_days DOUBLE, finish VARCHAR, 
	CONSTRAINT fk_part_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_part_matched_set_id_matched_set FOREIGN KEY(matched_set_id) REFERENCES matched_set (id) ON DELETE SET NULL, 
	CONSTRAINT fk_part_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL, 
	CONSTRAINT fk_part_spare_of_id_part FOREIGN KEY(spare_of_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_part_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE CASCADE
);
CREATE INDEX ix_part_code ON part (code);
CREATE INDEX ix_part_machine_subassembly ON part (machine_id, subassembly_id, position);
CREATE INDEX ix_part_matched_set_id ON part (matched_set_id);
CREATE INDEX ix_part_place_id ON part (place_id);
CREATE INDEX ix_part_spare_of_id ON part (spare_of_id);
CREATE INDEX ix_part_subassembly_id ON part (subassembly_id);
CREATE TABLE feature (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	unit VARCHAR NOT NULL, 
	thread VARCHAR NOT NULL, 
	nominal_text VARCHAR, 
	nominal_unit VARCHAR, 
	nominal_mm DOUBLE, 
	low_text VARCHAR, 
	low_unit VARCHAR, 
	low_mm DOUBLE, 
	high_text VARCHAR, 
	high_unit VARCHAR, 
	high_mm DOUBLE, 
	spec_text VARCHAR NOT NULL, 
	sense VARCHAR NOT NULL, 
	spec_origin VARCHAR(40), 
	spec_note VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_feature_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_feature_part_position ON feature (part_id, position);
CREATE TABLE task (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	title VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	state VARCHAR(40) NOT NULL, 
	low_min DOUBLE, 
	likely_min DOUBLE, 
	high_min DOUBLE, 
	irreversible BOOLEAN NOT NULL, 
	place VARCHAR NOT NULL, 
	tools VARCHAR NOT NULL, 
	torque_wanted VARCHAR NOT NULL, 
	done_at VARCHAR(19), 
	done_measured VARCHAR NOT NULL, 
	done_torque VARCHAR NOT NULL, 
	done_note VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, treatment VARCHAR(40), 
	CONSTRAINT fk_task_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_task_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_task_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE CASCADE
);
CREATE INDEX ix_task_machine_state ON task (machine_id, state);
CREATE INDEX ix_task_machine_subassembly ON task (machine_id, subassembly_id, position);
CREATE INDEX ix_task_part_id ON task (part_id);
CREATE INDEX ix_task_subassembly_id ON task (subassembly_id);
CREATE TABLE concession (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	feature_id INTEGER, 
	accepted VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	accepted_by VARCHAR NOT NULL, 
	accepted_at VARCHAR(19), 
	CONSTRAINT fk_concession_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE SET NULL, 
	CONSTRAINT fk_concession_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_concession_feature_id ON concession (feature_id);
CREATE INDEX ix_concession_part_id ON concession (part_id);
CREATE TABLE link (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	before_id INTEGER NOT NULL, 
	after_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	reason VARCHAR NOT NULL, 
	CONSTRAINT fk_link_after_id_task FOREIGN KEY(after_id) REFERENCES task (id) ON DELETE CASCADE, 
	CONSTRAINT fk_link_before_id_task FOREIGN KEY(before_id) REFERENCES task (id) ON DELETE CASCADE
);
CREATE INDEX ix_link_after_id ON link (after_id);
CREATE INDEX ix_link_before_after ON link (before_id, after_id);
CREATE TABLE question (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	text VARCHAR NOT NULL, 
	state VARCHAR(40) NOT NULL, 
	asked_where VARCHAR NOT NULL, 
	asked_at VARCHAR(19), 
	answer VARCHAR NOT NULL, 
	answered_by VARCHAR NOT NULL, 
	answered_at VARCHAR(19), 
	CONSTRAINT fk_question_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_question_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_question_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL, 
	CONSTRAINT fk_question_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_question_machine_id ON question (machine_id);
CREATE INDEX ix_question_part_id ON question (part_id);
CREATE INDEX ix_question_subassembly_id ON question (subassembly_id);
CREATE INDEX ix_question_task_id ON question (task_id);
CREATE TABLE station (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	feature_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	at_text VARCHAR, 
	at_unit VARCHAR, 
	at_mm DOUBLE, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_station_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE CASCADE
);
CREATE INDEX ix_station_feature_position ON station (feature_id, position);
CREATE TABLE task_caution (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	task_id INTEGER NOT NULL, 
	topic VARCHAR NOT NULL, read_at VARCHAR(19), 
	CONSTRAINT fk_task_caution_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE
);
CREATE INDEX ix_task_caution_task_id ON task_caution (task_id);
CREATE TABLE task_constraint (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	task_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	detail VARCHAR NOT NULL, rest_min DOUBLE, proved_at VARCHAR(19), proved_note VARCHAR, 
	CONSTRAINT fk_task_constraint_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE
);
CREATE INDEX ix_task_constraint_task_id ON task_constraint (task_id);
CREATE TABLE reading (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	feature_id INTEGER NOT NULL, 
	station_id INTEGER, 
	stage VARCHAR(40) NOT NULL, 
	typed VARCHAR NOT NULL, 
	unit VARCHAR NOT NULL, 
	value_mm DOUBLE NOT NULL, 
	repeats INTEGER NOT NULL, 
	spread_mm DOUBLE, 
	instrument_id INTEGER, 
	temperature_text VARCHAR, 
	temperature_c DOUBLE, 
	taken_at VARCHAR(19) NOT NULL, 
	taken_by VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	struck VARCHAR, how VARCHAR, thread VARCHAR, read_mm DOUBLE, 
	CONSTRAINT fk_reading_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE CASCADE, 
	CONSTRAINT fk_reading_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL, 
	CONSTRAINT fk_reading_station_id_station FOREIGN KEY(station_id) REFERENCES station (id) ON DELETE CASCADE
);
CREATE INDEX ix_reading_feature_station_stage ON reading (feature_id, station_id, stage, id);
CREATE INDEX ix_reading_instrument_id ON reading (instrument_id);
CREATE INDEX ix_reading_station_id ON reading (station_id);
CREATE INDEX ix_reading_taken_at ON reading (taken_at);
CREATE TABLE j_instrument (change_id INTEGER NOT NULL, "b_id", "b_name", "b_kind", "b_unit", "b_resolution_text", "b_resolution_unit", "b_resolution_mm", "b_mpe_text", "b_mpe_unit", "b_mpe_mm", "b_uncertainty_text", "b_uncertainty_unit", "b_uncertainty_mm", "b_coverage_k", "b_limit_source", "b_calibrated_on", "b_note", "b_position", "a_id", "a_name", "a_kind", "a_unit", "a_resolution_text", "a_resolution_unit", "a_resolution_mm", "a_mpe_text", "a_mpe_unit", "a_mpe_mm", "a_uncertainty_text", "a_uncertainty_unit", "a_uncertainty_mm", "a_coverage_k", "a_limit_source", "a_calibrated_on", "a_note", "a_position", "b_least_text", "a_least_text", "b_least_unit", "a_least_unit", "b_least_mm", "a_least_mm", "b_most_text", "a_most_text", "b_most_unit", "a_most_unit", "b_most_mm", "a_most_mm", "b_measures", "a_measures", CONSTRAINT pk_j_instrument PRIMARY KEY (change_id), CONSTRAINT fk_j_instrument_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_machine (change_id INTEGER NOT NULL, "b_id", "b_name", "b_kind", "b_maker", "b_model", "b_serial", "b_serial_where", "b_stampings", "b_year", "b_year_basis", "b_unit", "b_capacity", "b_weight", "b_power_found", "b_power_planned", "b_scope", "b_location", "b_bought", "b_story", "b_position", "a_id", "a_name", "a_kind", "a_maker", "a_model", "a_serial", "a_serial_where", "a_stampings", "a_year", "a_year_basis", "a_unit", "a_capacity", "a_weight", "a_power_found", "a_power_planned", "a_scope", "a_location", "a_bought", "a_story", "a_position", CONSTRAINT pk_j_machine PRIMARY KEY (change_id), CONSTRAINT fk_j_machine_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_place (change_id INTEGER NOT NULL, "b_id", "b_kind", "b_name", "b_note", "b_since", "a_id", "a_kind", "a_name", "a_note", "a_since", CONSTRAINT pk_j_place PRIMARY KEY (change_id), CONSTRAINT fk_j_place_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_log_entry (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_at", "b_hours", "b_temperature_c", "b_did", "b_found", "b_left_on_bench", "b_next_step", "b_blocked_by", "b_do_not_forget", "a_id", "a_machine_id", "a_at", "a_hours", "a_temperature_c", "a_did", "a_found", "a_left_on_bench", "a_next_step", "a_blocked_by", "a_do_not_forget", CONSTRAINT pk_j_log_entry PRIMARY KEY (change_id), CONSTRAINT fk_j_log_entry_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_matched_set (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_name", "b_note", "a_id", "a_machine_id", "a_name", "a_note", CONSTRAINT pk_j_matched_set PRIMARY KEY (change_id), CONSTRAINT fk_j_matched_set_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_subassembly (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_parent_id", "b_code", "b_name", "b_scope", "b_manual_page", "b_note", "b_position", "a_id", "a_machine_id", "a_parent_id", "a_code", "a_name", "a_scope", "a_manual_page", "a_note", "a_position", CONSTRAINT pk_j_subassembly PRIMARY KEY (change_id), CONSTRAINT fk_j_subassembly_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_part (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_code", "b_name", "b_other_names", "b_quantity", "b_identity", "b_suspects", "b_origin", "b_material", "b_condition", "b_decision", "b_decision_reason", "b_decision_criterion", "b_decision_would_change", "b_decided_at", "b_place_id", "b_placed_at", "b_match_mark", "b_orientation", "b_matched_set_id", "b_figure_item", "b_maker_number", "b_stamped", "b_handedness", "b_spare_of_id", "b_note", "b_position", "a_id", "a_machine_id", "a_subassembly_id", "a_code", "a_name", "a_other_names", "a_quantity", "a_identity", "a_suspects", "a_origin", "a_material", "a_condition", "a_decision", "a_decision_reason", "a_decision_criterion", "a_decision_would_change", "a_decided_at", "a_place_id", "a_placed_at", "a_match_mark", "a_orientation", "a_matched_set_id", "a_figure_item", "a_maker_number", "a_stamped", "a_handedness", "a_spare_of_id", "a_note", "a_position", "b_decision_method", "a_decision_method", "b_decision_value", "a_decision_value", "b_decision_cost", "a_decision_cost", "b_decision_work_min", "a_decision_work_min", "b_decision_wait_days", "a_decision_wait_days", "b_finish", "a_finish", CONSTRAINT pk_j_part PRIMARY KEY (change_id), CONSTRAINT fk_j_part_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_feature (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_name", "b_kind", "b_unit", "b_thread", "b_nominal_text", "b_nominal_unit", "b_nominal_mm", "b_low_text", "b_low_unit", "b_low_mm", "b_high_text", "b_high_unit", "b_high_mm", "b_spec_text", "b_sense", "b_spec_origin", "b_spec_note", "b_note", "b_position", "a_id", "a_part_id", "a_name", "a_kind", "a_unit", "a_thread", "a_nominal_text", "a_nominal_unit", "a_nominal_mm", "a_low_text", "a_low_unit", "a_low_mm", "a_high_text", "a_high_unit", "a_high_mm", "a_spec_text", "a_sense", "a_spec_origin", "a_spec_note", "a_note", "a_position", CONSTRAINT pk_j_feature PRIMARY KEY (change_id), CONSTRAINT fk_j_feature_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE INDEX ix_j_feature_a_part_id ON j_feature ("a_part_id");
CREATE TABLE j_task (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_title", "b_kind", "b_state", "b_low_min", "b_likely_min", "b_high_min", "b_irreversible", "b_place", "b_tools", "b_torque_wanted", "b_done_at", "b_done_measured", "b_done_torque", "b_done_note", "b_note", "b_position", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_title", "a_kind", "a_state", "a_low_min", "a_likely_min", "a_high_min", "a_irreversible", "a_place", "a_tools", "a_torque_wanted", "a_done_at", "a_done_measured", "a_done_torque", "a_done_note", "a_note", "a_position", "b_treatment", "a_treatment", CONSTRAINT pk_j_task PRIMARY KEY (change_id), CONSTRAINT fk_j_task_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_concession (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_feature_id", "b_accepted", "b_reason", "b_accepted_by", "b_accepted_at", "a_id", "a_part_id", "a_feature_id", "a_accepted", "a_reason", "a_accepted_by", "a_accepted_at", CONSTRAINT pk_j_concession PRIMARY KEY (change_id), CONSTRAINT fk_j_concession_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE INDEX ix_j_concession_a_part_id ON j_concession ("a_part_id");
CREATE TABLE j_link (change_id INTEGER NOT NULL, "b_id", "b_before_id", "b_after_id", "b_kind", "b_reason", "a_id", "a_before_id", "a_after_id", "a_kind", "a_reason", CONSTRAINT pk_j_link PRIMARY KEY (change_id), CONSTRAINT fk_j_link_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_question (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_task_id", "b_text", "b_state", "b_asked_where", "b_asked_at", "b_answer", "b_answered_by", "b_answered_at", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_task_id", "a_text", "a_state", "a_asked_where", "a_asked_at", "a_answer", "a_answered_by", "a_answered_at", CONSTRAINT pk_j_question PRIMARY KEY (change_id), CONSTRAINT fk_j_question_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_station (change_id INTEGER NOT NULL, "b_id", "b_feature_id", "b_name", "b_at_text", "b_at_unit", "b_at_mm", "b_position", "a_id", "a_feature_id", "a_name", "a_at_text", "a_at_unit", "a_at_mm", "a_position", CONSTRAINT pk_j_station PRIMARY KEY (change_id), CONSTRAINT fk_j_station_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_task_caution (change_id INTEGER NOT NULL, "b_id", "b_task_id", "b_topic", "a_id", "a_task_id", "a_topic", "b_read_at", "a_read_at", CONSTRAINT pk_j_task_caution PRIMARY KEY (change_id), CONSTRAINT fk_j_task_caution_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_task_constraint (change_id INTEGER NOT NULL, "b_id", "b_task_id", "b_kind", "b_detail", "a_id", "a_task_id", "a_kind", "a_detail", "b_rest_min", "a_rest_min", "b_proved_at", "a_proved_at", "b_proved_note", "a_proved_note", CONSTRAINT pk_j_task_constraint PRIMARY KEY (change_id), CONSTRAINT fk_j_task_constraint_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_reading (change_id INTEGER NOT NULL, "b_id", "b_feature_id", "b_station_id", "b_stage", "b_typed", "b_unit", "b_value_mm", "b_repeats", "b_spread_mm", "b_instrument_id", "b_temperature_text", "b_temperature_c", "b_taken_at", "b_taken_by", "b_note", "b_struck", "a_id", "a_feature_id", "a_station_id", "a_stage", "a_typed", "a_unit", "a_value_mm", "a_repeats", "a_spread_mm", "a_instrument_id", "a_temperature_text", "a_temperature_c", "a_taken_at", "a_taken_by", "a_note", "a_struck", "b_how", "a_how", "b_thread", "a_thread", "b_read_mm", "a_read_mm", CONSTRAINT pk_j_reading PRIMARY KEY (change_id), CONSTRAINT fk_j_reading_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE INDEX ix_j_reading_a_feature_id ON j_reading ("a_feature_id");
CREATE TABLE wear_rule (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	"key" VARCHAR NOT NULL, 
	good_text VARCHAR, 
	good_unit VARCHAR, 
	good_mm DOUBLE, 
	rework_text VARCHAR, 
	rework_unit VARCHAR, 
	rework_mm DOUBLE, 
	left_out BOOLEAN NOT NULL, 
	note VARCHAR NOT NULL
);
CREATE INDEX ix_wear_rule_key ON wear_rule ("key");
CREATE TABLE decision_option (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	decision VARCHAR(40) NOT NULL, 
	method VARCHAR NOT NULL, 
	cost DOUBLE, 
	work_min DOUBLE, 
	wait_days DOUBLE, 
	reversible BOOLEAN NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_decision_option_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_decision_option_part_id ON decision_option (part_id);
CREATE TABLE odd_size (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	feature_id INTEGER, 
	what VARCHAR NOT NULL, 
	size_text VARCHAR, 
	size_unit VARCHAR, 
	size_mm DOUBLE, 
	instead_of VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	since VARCHAR(19), 
	CONSTRAINT fk_odd_size_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE SET NULL, 
	CONSTRAINT fk_odd_size_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_odd_size_feature_id ON odd_size (feature_id);
CREATE INDEX ix_odd_size_part_id ON odd_size (part_id);
CREATE TABLE fit (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	joint VARCHAR(40) NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	outer_id INTEGER NOT NULL, 
	inner_id INTEGER NOT NULL, 
	gap_id INTEGER, 
	outer_station_id INTEGER, 
	inner_station_id INTEGER, 
	outer_stage VARCHAR(40), 
	inner_stage VARCHAR(40), 
	unit VARCHAR NOT NULL, 
	wanted_text VARCHAR NOT NULL, 
	low_text VARCHAR, 
	low_unit VARCHAR, 
	low_mm DOUBLE, 
	high_text VARCHAR, 
	high_unit VARCHAR, 
	high_mm DOUBLE, 
	wanted_origin VARCHAR(40), 
	wanted_note VARCHAR NOT NULL, 
	master VARCHAR(40), 
	adjuster VARCHAR(40) NOT NULL, 
	note VARCHAR NOT NULL, 
	looked_at VARCHAR(19), 
	looked VARCHAR NOT NULL, 
	position INTEGER NOT NULL, later_id INTEGER, limits_to VARCHAR(40), 
	CONSTRAINT fk_fit_gap_id_feature FOREIGN KEY(gap_id) REFERENCES feature (id) ON DELETE SET NULL, 
	CONSTRAINT fk_fit_inner_id_feature FOREIGN KEY(inner_id) REFERENCES feature (id) ON DELETE CASCADE, 
	CONSTRAINT fk_fit_inner_station_id_station FOREIGN KEY(inner_station_id) REFERENCES station (id) ON DELETE SET NULL, 
	CONSTRAINT fk_fit_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_fit_outer_id_feature FOREIGN KEY(outer_id) REFERENCES feature (id) ON DELETE CASCADE, 
	CONSTRAINT fk_fit_outer_station_id_station FOREIGN KEY(outer_station_id) REFERENCES station (id) ON DELETE SET NULL
);
CREATE INDEX ix_fit_gap_id ON fit (gap_id);
CREATE INDEX ix_fit_inner_id ON fit (inner_id);
CREATE INDEX ix_fit_inner_station_id ON fit (inner_station_id);
CREATE INDEX ix_fit_machine_position ON fit (machine_id, position);
CREATE INDEX ix_fit_outer_id ON fit (outer_id);
CREATE INDEX ix_fit_outer_station_id ON fit (outer_station_id);
CREATE TABLE j_wear_rule (change_id INTEGER NOT NULL, "b_id", "b_key", "b_good_text", "b_good_unit", "b_good_mm", "b_rework_text", "b_rework_unit", "b_rework_mm", "b_left_out", "b_note", "a_id", "a_key", "a_good_text", "a_good_unit", "a_good_mm", "a_rework_text", "a_rework_unit", "a_rework_mm", "a_left_out", "a_note", CONSTRAINT pk_j_wear_rule PRIMARY KEY (change_id), CONSTRAINT fk_j_wear_rule_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_decision_option (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_decision", "b_method", "b_cost", "b_work_min", "b_wait_days", "b_reversible", "b_note", "b_position", "a_id", "a_part_id", "a_decision", "a_method", "a_cost", "a_work_min", "a_wait_days", "a_reversible", "a_note", "a_position", CONSTRAINT pk_j_decision_option PRIMARY KEY (change_id), CONSTRAINT fk_j_decision_option_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_odd_size (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_feature_id", "b_what", "b_size_text", "b_size_unit", "b_size_mm", "b_instead_of", "b_reason", "b_since", "a_id", "a_part_id", "a_feature_id", "a_what", "a_size_text", "a_size_unit", "a_size_mm", "a_instead_of", "a_reason", "a_since", CONSTRAINT pk_j_odd_size PRIMARY KEY (change_id), CONSTRAINT fk_j_odd_size_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_fit (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_name", "b_joint", "b_kind", "b_outer_id", "b_inner_id", "b_gap_id", "b_outer_station_id", "b_inner_station_id", "b_outer_stage", "b_inner_stage", "b_unit", "b_wanted_text", "b_low_text", "b_low_unit", "b_low_mm", "b_high_text", "b_high_unit", "b_high_mm", "b_wanted_origin", "b_wanted_note", "b_master", "b_adjuster", "b_note", "b_looked_at", "b_looked", "b_position", "a_id", "a_machine_id", "a_name", "a_joint", "a_kind", "a_outer_id", "a_inner_id", "a_gap_id", "a_outer_station_id", "a_inner_station_id", "a_outer_stage", "a_inner_stage", "a_unit", "a_wanted_text", "a_low_text", "a_low_unit", "a_low_mm", "a_high_text", "a_high_unit", "a_high_mm", "a_wanted_origin", "a_wanted_note", "a_master", "a_adjuster", "a_note", "a_looked_at", "a_looked", "a_position", "b_later_id", "a_later_id", "b_limits_to", "a_limits_to", CONSTRAINT pk_j_fit PRIMARY KEY (change_id), CONSTRAINT fk_j_fit_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE making_sheet (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	attempt INTEGER NOT NULL, 
	shape VARCHAR(40) NOT NULL, 
	progress VARCHAR(40) NOT NULL, 
	unit VARCHAR NOT NULL, 
	quantity INTEGER NOT NULL, 
	why VARCHAR NOT NULL, 
	do_not_copy VARCHAR NOT NULL, 
	material VARCHAR NOT NULL, 
	bar_skin VARCHAR NOT NULL, 
	blank VARCHAR NOT NULL, 
	blank_at VARCHAR NOT NULL, 
	thread VARCHAR NOT NULL, 
	taper VARCHAR NOT NULL, 
	gear VARCHAR NOT NULL, 
	"key" VARCHAR NOT NULL, 
	finish VARCHAR NOT NULL, 
	allow_uncertainty BOOLEAN NOT NULL, 
	started_at VARCHAR(19), 
	begun_at VARCHAR(19), 
	made_at VARCHAR(19), 
	settled_at VARCHAR(19), 
	settled_by VARCHAR NOT NULL, 
	settled_note VARCHAR NOT NULL, 
	trial_fit VARCHAR NOT NULL, 
	marked VARCHAR NOT NULL, 
	looked VARCHAR NOT NULL, 
	looked_at VARCHAR(19), 
	note VARCHAR NOT NULL, tool_nose VARCHAR, stock_ends VARCHAR, stock_across_text VARCHAR, stock_across_unit VARCHAR, stock_across_mm DOUBLE, stock_long_text VARCHAR, stock_long_unit VARCHAR, stock_long_mm DOUBLE, issue INTEGER, issued_at VARCHAR(19), issued VARCHAR, replaces VARCHAR, ball_text VARCHAR, ball_unit VARCHAR, ball_mm DOUBLE, 
	CONSTRAINT fk_making_sheet_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_making_sheet_part_id ON making_sheet (part_id);
CREATE TABLE making_step (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	sheet_id INTEGER NOT NULL, 
	what VARCHAR NOT NULL, 
	machine VARCHAR NOT NULL, 
	hold VARCHAR NOT NULL, 
	tool VARCHAR NOT NULL, 
	speed VARCHAR NOT NULL, 
	feed VARCHAR NOT NULL, 
	leave VARCHAR NOT NULL, 
	measure BOOLEAN NOT NULL, 
	done_at VARCHAR(19), 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_making_step_sheet_id_making_sheet FOREIGN KEY(sheet_id) REFERENCES making_sheet (id) ON DELETE CASCADE
);
CREATE INDEX ix_making_step_sheet_position ON making_step (sheet_id, position);
CREATE TABLE making_tool (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	sheet_id INTEGER NOT NULL, 
	what VARCHAR NOT NULL, 
	why VARCHAR NOT NULL, 
	in_hand BOOLEAN NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_making_tool_sheet_id_making_sheet FOREIGN KEY(sheet_id) REFERENCES making_sheet (id) ON DELETE CASCADE
);
CREATE INDEX ix_making_tool_sheet_position ON making_tool (sheet_id, position);
CREATE TABLE making_dimension (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	sheet_id INTEGER NOT NULL, 
	role VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	feature_id INTEGER, 
	fit_id INTEGER, 
	limits_from VARCHAR(40) NOT NULL, 
	size_text VARCHAR NOT NULL, 
	nominal_text VARCHAR, 
	nominal_unit VARCHAR, 
	nominal_mm DOUBLE, 
	low_text VARCHAR, 
	low_unit VARCHAR, 
	low_mm DOUBLE, 
	high_text VARCHAR, 
	high_unit VARCHAR, 
	high_mm DOUBLE, 
	measured_with VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_making_dimension_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE SET NULL, 
	CONSTRAINT fk_making_dimension_fit_id_fit FOREIGN KEY(fit_id) REFERENCES fit (id) ON DELETE SET NULL, 
	CONSTRAINT fk_making_dimension_sheet_id_making_sheet FOREIGN KEY(sheet_id) REFERENCES making_sheet (id) ON DELETE CASCADE
);
CREATE INDEX ix_making_dimension_feature_id ON making_dimension (feature_id);
CREATE INDEX ix_making_dimension_fit_id ON making_dimension (fit_id);
CREATE INDEX ix_making_dimension_sheet_position ON making_dimension (sheet_id, position);
CREATE TABLE j_making_sheet (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_attempt", "b_shape", "b_progress", "b_unit", "b_quantity", "b_why", "b_do_not_copy", "b_material", "b_bar_skin", "b_blank", "b_blank_at", "b_thread", "b_taper", "b_gear", "b_key", "b_finish", "b_allow_uncertainty", "b_started_at", "b_begun_at", "b_made_at", "b_settled_at", "b_settled_by", "b_settled_note", "b_trial_fit", "b_marked", "b_looked", "b_looked_at", "b_note", "a_id", "a_part_id", "a_attempt", "a_shape", "a_progress", "a_unit", "a_quantity", "a_why", "a_do_not_copy", "a_material", "a_bar_skin", "a_blank", "a_blank_at", "a_thread", "a_taper", "a_gear", "a_key", "a_finish", "a_allow_uncertainty", "a_started_at", "a_begun_at", "a_made_at", "a_settled_at", "a_settled_by", "a_settled_note", "a_trial_fit", "a_marked", "a_looked", "a_looked_at", "a_note", "b_tool_nose", "a_tool_nose", "b_stock_ends", "a_stock_ends", "b_stock_across_text", "a_stock_across_text", "b_stock_across_unit", "a_stock_across_unit", "b_stock_across_mm", "a_stock_across_mm", "b_stock_long_text", "a_stock_long_text", "b_stock_long_unit", "a_stock_long_unit", "b_stock_long_mm", "a_stock_long_mm", "b_issue", "a_issue", "b_issued_at", "a_issued_at", "b_issued", "a_issued", "b_replaces", "a_replaces", "b_ball_text", "a_ball_text", "b_ball_unit", "a_ball_unit", "b_ball_mm", "a_ball_mm", CONSTRAINT pk_j_making_sheet PRIMARY KEY (change_id), CONSTRAINT fk_j_making_sheet_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_making_step (change_id INTEGER NOT NULL, "b_id", "b_sheet_id", "b_what", "b_machine", "b_hold", "b_tool", "b_speed", "b_feed", "b_leave", "b_measure", "b_done_at", "b_note", "b_position", "a_id", "a_sheet_id", "a_what", "a_machine", "a_hold", "a_tool", "a_speed", "a_feed", "a_leave", "a_measure", "a_done_at", "a_note", "a_position", CONSTRAINT pk_j_making_step PRIMARY KEY (change_id), CONSTRAINT fk_j_making_step_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_making_tool (change_id INTEGER NOT NULL, "b_id", "b_sheet_id", "b_what", "b_why", "b_in_hand", "b_position", "a_id", "a_sheet_id", "a_what", "a_why", "a_in_hand", "a_position", CONSTRAINT pk_j_making_tool PRIMARY KEY (change_id), CONSTRAINT fk_j_making_tool_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_making_dimension (change_id INTEGER NOT NULL, "b_id", "b_sheet_id", "b_role", "b_name", "b_feature_id", "b_fit_id", "b_limits_from", "b_size_text", "b_nominal_text", "b_nominal_unit", "b_nominal_mm", "b_low_text", "b_low_unit", "b_low_mm", "b_high_text", "b_high_unit", "b_high_mm", "b_measured_with", "b_note", "b_position", "a_id", "a_sheet_id", "a_role", "a_name", "a_feature_id", "a_fit_id", "a_limits_from", "a_size_text", "a_nominal_text", "a_nominal_unit", "a_nominal_mm", "a_low_text", "a_low_unit", "a_low_mm", "a_high_text", "a_high_unit", "a_high_mm", "a_measured_with", "a_note", "a_position", CONSTRAINT pk_j_making_dimension PRIMARY KEY (change_id), CONSTRAINT fk_j_making_dimension_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE stock_item (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name VARCHAR NOT NULL, 
	material VARCHAR NOT NULL, 
	sizes VARCHAR NOT NULL, 
	thread VARCHAR NOT NULL, 
	quantity DOUBLE, 
	counted_in VARCHAR NOT NULL, 
	place_id INTEGER, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_stock_item_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL
);
CREATE INDEX ix_stock_item_place_id ON stock_item (place_id);
CREATE TABLE attempt (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	number INTEGER NOT NULL, 
	began_at VARCHAR(19) NOT NULL, 
	stopped_by VARCHAR NOT NULL, 
	changed VARCHAR NOT NULL, 
	photo VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_attempt_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_attempt_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE CASCADE
);
CREATE INDEX ix_attempt_machine_subassembly ON attempt (machine_id, subassembly_id, number);
CREATE INDEX ix_attempt_subassembly_id ON attempt (subassembly_id);
CREATE TABLE hours_spent (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	log_entry_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	hours DOUBLE NOT NULL, 
	CONSTRAINT fk_hours_spent_log_entry_id_log_entry FOREIGN KEY(log_entry_id) REFERENCES log_entry (id) ON DELETE CASCADE, 
	CONSTRAINT fk_hours_spent_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_hours_spent_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL
);
CREATE INDEX ix_hours_spent_log_entry_id ON hours_spent (log_entry_id);
CREATE INDEX ix_hours_spent_part_id ON hours_spent (part_id);
CREATE INDEX ix_hours_spent_subassembly_id ON hours_spent (subassembly_id);
CREATE TABLE removal (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	attempt_id INTEGER NOT NULL, 
	position INTEGER NOT NULL, 
	at VARCHAR(19) NOT NULL, 
	what VARCHAR NOT NULL, 
	how VARCHAR(40) NOT NULL, 
	from_end VARCHAR NOT NULL, 
	location VARCHAR NOT NULL, 
	orientation VARCHAR NOT NULL, 
	match_mark VARCHAR NOT NULL, 
	hard VARCHAR NOT NULL, 
	found VARCHAR NOT NULL, 
	tools VARCHAR NOT NULL, 
	photo VARCHAR NOT NULL, 
	place_id INTEGER, 
	note VARCHAR NOT NULL, broke VARCHAR, 
	CONSTRAINT fk_removal_attempt_id_attempt FOREIGN KEY(attempt_id) REFERENCES attempt (id) ON DELETE CASCADE, 
	CONSTRAINT fk_removal_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL
);
CREATE INDEX ix_removal_attempt_position ON removal (attempt_id, position);
CREATE INDEX ix_removal_place_id ON removal (place_id);
CREATE TABLE joint (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	name VARCHAR NOT NULL, 
	location VARCHAR NOT NULL, 
	tour INTEGER, 
	thread VARCHAR NOT NULL, 
	count INTEGER NOT NULL, 
	grade VARCHAR NOT NULL, 
	tight VARCHAR(40) NOT NULL, 
	wanted VARCHAR(40) NOT NULL, 
	dress VARCHAR(40), 
	wanted_dress VARCHAR(40), 
	torque_wanted VARCHAR NOT NULL, 
	torque_source VARCHAR NOT NULL, 
	torque_done VARCHAR NOT NULL, 
	set_at VARCHAR(19), 
	look_again BOOLEAN NOT NULL, 
	looked_again_at VARCHAR(19), 
	note VARCHAR NOT NULL, duty VARCHAR(40), how_set VARCHAR, torque_reason VARCHAR, 
	CONSTRAINT fk_joint_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_joint_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_joint_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE CASCADE, 
	CONSTRAINT fk_joint_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_joint_machine_subassembly ON joint (machine_id, subassembly_id);
CREATE INDEX ix_joint_part_id ON joint (part_id);
CREATE INDEX ix_joint_subassembly_id ON joint (subassembly_id);
CREATE INDEX ix_joint_task_id ON joint (task_id);
CREATE TABLE link_proposal (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	before_id INTEGER NOT NULL, 
	after_id INTEGER NOT NULL, 
	answer VARCHAR(40) NOT NULL, 
	answered_at VARCHAR(19) NOT NULL, 
	CONSTRAINT fk_link_proposal_after_id_removal FOREIGN KEY(after_id) REFERENCES removal (id) ON DELETE CASCADE, 
	CONSTRAINT fk_link_proposal_before_id_removal FOREIGN KEY(before_id) REFERENCES removal (id) ON DELETE CASCADE
);
CREATE INDEX ix_link_proposal_after_id ON link_proposal (after_id);
CREATE INDEX ix_link_proposal_pair ON link_proposal (before_id, after_id);
CREATE TABLE refit_step (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	attempt_id INTEGER NOT NULL, 
	removal_id INTEGER, 
	task_id INTEGER, 
	drafted_title VARCHAR NOT NULL, 
	drafted_note VARCHAR NOT NULL, 
	CONSTRAINT fk_refit_step_attempt_id_attempt FOREIGN KEY(attempt_id) REFERENCES attempt (id) ON DELETE CASCADE, 
	CONSTRAINT fk_refit_step_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE SET NULL, 
	CONSTRAINT fk_refit_step_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_refit_step_attempt_id ON refit_step (attempt_id);
CREATE INDEX ix_refit_step_removal_id ON refit_step (removal_id);
CREATE INDEX ix_refit_step_task_id ON refit_step (task_id);
CREATE TABLE removal_part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	removal_id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	CONSTRAINT fk_removal_part_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE, 
	CONSTRAINT fk_removal_part_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE CASCADE
);
CREATE INDEX ix_removal_part_part_id ON removal_part (part_id);
CREATE INDEX ix_removal_part_removal ON removal_part (removal_id, part_id);
CREATE TABLE shim_pack (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	removal_id INTEGER NOT NULL, 
	location VARCHAR NOT NULL, 
	side VARCHAR NOT NULL, 
	way_round VARCHAR NOT NULL, 
	material VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_shim_pack_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE CASCADE
);
CREATE INDEX ix_shim_pack_removal_id ON shim_pack (removal_id);
CREATE TABLE waiting (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	place_id INTEGER, 
	kind VARCHAR(40) NOT NULL, 
	what VARCHAR NOT NULL, 
	who VARCHAR NOT NULL, 
	reference VARCHAR NOT NULL, 
	quantity INTEGER NOT NULL, 
	sent_with VARCHAR NOT NULL, 
	price DOUBLE, 
	carriage DOUBLE, 
	tax DOUBLE, 
	lead_low_days DOUBLE, 
	lead_likely_days DOUBLE, 
	lead_high_days DOUBLE, 
	asked_at VARCHAR(19), 
	good_until VARCHAR(19), 
	ordered_at VARCHAR(19), 
	promised_at VARCHAR(19), 
	chased_at VARCHAR(19), 
	arrived_at VARCHAR(19), 
	inspected_at VARCHAR(19), 
	inspected_note VARCHAR NOT NULL, 
	returned_at VARCHAR(19), 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_waiting_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_waiting_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_waiting_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL, 
	CONSTRAINT fk_waiting_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL, 
	CONSTRAINT fk_waiting_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_waiting_machine_arrived ON waiting (machine_id, arrived_at);
CREATE INDEX ix_waiting_part_id ON waiting (part_id);
CREATE INDEX ix_waiting_place_id ON waiting (place_id);
CREATE INDEX ix_waiting_subassembly_id ON waiting (subassembly_id);
CREATE INDEX ix_waiting_task_id ON waiting (task_id);
CREATE TABLE clock (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	joint_id INTEGER, 
	kind VARCHAR(40) NOT NULL, 
	what VARCHAR NOT NULL, 
	started_at VARCHAR(19) NOT NULL, 
	low_min DOUBLE, 
	high_min DOUBLE, 
	source VARCHAR NOT NULL, 
	closed_at VARCHAR(19), 
	closed_note VARCHAR NOT NULL, 
	CONSTRAINT fk_clock_joint_id_joint FOREIGN KEY(joint_id) REFERENCES joint (id) ON DELETE CASCADE, 
	CONSTRAINT fk_clock_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_clock_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE, 
	CONSTRAINT fk_clock_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL, 
	CONSTRAINT fk_clock_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE
);
CREATE INDEX ix_clock_joint_id ON clock (joint_id);
CREATE INDEX ix_clock_machine_closed ON clock (machine_id, closed_at);
CREATE INDEX ix_clock_part_id ON clock (part_id);
CREATE INDEX ix_clock_subassembly_id ON clock (subassembly_id);
CREATE INDEX ix_clock_task_id ON clock (task_id);
CREATE TABLE constraint_part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	constraint_id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	CONSTRAINT fk_constraint_part_constraint_id_task_constraint FOREIGN KEY(constraint_id) REFERENCES task_constraint (id) ON DELETE CASCADE, 
	CONSTRAINT fk_constraint_part_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_constraint_part_constraint ON constraint_part (constraint_id, part_id);
CREATE INDEX ix_constraint_part_part_id ON constraint_part (part_id);
CREATE TABLE drafted_link (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	before_id INTEGER NOT NULL, 
	after_id INTEGER NOT NULL, 
	link_id INTEGER, 
	CONSTRAINT fk_drafted_link_after_id_refit_step FOREIGN KEY(after_id) REFERENCES refit_step (id) ON DELETE CASCADE, 
	CONSTRAINT fk_drafted_link_before_id_refit_step FOREIGN KEY(before_id) REFERENCES refit_step (id) ON DELETE CASCADE, 
	CONSTRAINT fk_drafted_link_link_id_link FOREIGN KEY(link_id) REFERENCES link (id) ON DELETE SET NULL
);
CREATE INDEX ix_drafted_link_after_id ON drafted_link (after_id);
CREATE INDEX ix_drafted_link_link_id ON drafted_link (link_id);
CREATE INDEX ix_drafted_link_pair ON drafted_link (before_id, after_id);
CREATE TABLE fastener (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	removal_id INTEGER NOT NULL, 
	joint_id INTEGER, 
	kind VARCHAR(40) NOT NULL, 
	hole VARCHAR NOT NULL, 
	count INTEGER NOT NULL, 
	thread VARCHAR NOT NULL, 
	left_hand BOOLEAN NOT NULL, 
	length_text VARCHAR, 
	length_unit VARCHAR, 
	length_mm DOUBLE, 
	head VARCHAR NOT NULL, 
	point VARCHAR(40), 
	grade VARCHAR NOT NULL, 
	big_end VARCHAR NOT NULL, 
	hidden VARCHAR NOT NULL, 
	state VARCHAR(40), 
	substitute BOOLEAN NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_fastener_joint_id_joint FOREIGN KEY(joint_id) REFERENCES joint (id) ON DELETE SET NULL, 
	CONSTRAINT fk_fastener_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE CASCADE
);
CREATE INDEX ix_fastener_joint_id ON fastener (joint_id);
CREATE INDEX ix_fastener_removal_position ON fastener (removal_id, position);
CREATE TABLE shim_leaf (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	pack_id INTEGER NOT NULL, 
	thickness_text VARCHAR NOT NULL, 
	thickness_unit VARCHAR NOT NULL, 
	thickness_mm DOUBLE NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_shim_leaf_pack_id_shim_pack FOREIGN KEY(pack_id) REFERENCES shim_pack (id) ON DELETE CASCADE
);
CREATE INDEX ix_shim_leaf_pack_position ON shim_leaf (pack_id, position);
CREATE TABLE j_stock_item (change_id INTEGER NOT NULL, "b_id", "b_name", "b_material", "b_sizes", "b_thread", "b_quantity", "b_counted_in", "b_place_id", "b_note", "a_id", "a_name", "a_material", "a_sizes", "a_thread", "a_quantity", "a_counted_in", "a_place_id", "a_note", CONSTRAINT pk_j_stock_item PRIMARY KEY (change_id), CONSTRAINT fk_j_stock_item_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_attempt (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_number", "b_began_at", "b_stopped_by", "b_changed", "b_photo", "b_note", "a_id", "a_machine_id", "a_subassembly_id", "a_number", "a_began_at", "a_stopped_by", "a_changed", "a_photo", "a_note", CONSTRAINT pk_j_attempt PRIMARY KEY (change_id), CONSTRAINT fk_j_attempt_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_hours_spent (change_id INTEGER NOT NULL, "b_id", "b_log_entry_id", "b_subassembly_id", "b_part_id", "b_hours", "a_id", "a_log_entry_id", "a_subassembly_id", "a_part_id", "a_hours", CONSTRAINT pk_j_hours_spent PRIMARY KEY (change_id), CONSTRAINT fk_j_hours_spent_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_removal (change_id INTEGER NOT NULL, "b_id", "b_attempt_id", "b_position", "b_at", "b_what", "b_how", "b_from_end", "b_location", "b_orientation", "b_match_mark", "b_hard", "b_found", "b_tools", "b_photo", "b_place_id", "b_note", "a_id", "a_attempt_id", "a_position", "a_at", "a_what", "a_how", "a_from_end", "a_location", "a_orientation", "a_match_mark", "a_hard", "a_found", "a_tools", "a_photo", "a_place_id", "a_note", "b_broke", "a_broke", CONSTRAINT pk_j_removal PRIMARY KEY (change_id), CONSTRAINT fk_j_removal_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_joint (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_task_id", "b_name", "b_location", "b_tour", "b_thread", "b_count", "b_grade", "b_tight", "b_wanted", "b_dress", "b_wanted_dress", "b_torque_wanted", "b_torque_source", "b_torque_done", "b_set_at", "b_look_again", "b_looked_again_at", "b_note", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_task_id", "a_name", "a_location", "a_tour", "a_thread", "a_count", "a_grade", "a_tight", "a_wanted", "a_dress", "a_wanted_dress", "a_torque_wanted", "a_torque_source", "a_torque_done", "a_set_at", "a_look_again", "a_looked_again_at", "a_note", "b_duty", "a_duty", "b_how_set", "a_how_set", "b_torque_reason", "a_torque_reason", CONSTRAINT pk_j_joint PRIMARY KEY (change_id), CONSTRAINT fk_j_joint_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_link_proposal (change_id INTEGER NOT NULL, "b_id", "b_before_id", "b_after_id", "b_answer", "b_answered_at", "a_id", "a_before_id", "a_after_id", "a_answer", "a_answered_at", CONSTRAINT pk_j_link_proposal PRIMARY KEY (change_id), CONSTRAINT fk_j_link_proposal_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_refit_step (change_id INTEGER NOT NULL, "b_id", "b_attempt_id", "b_removal_id", "b_task_id", "b_drafted_title", "b_drafted_note", "a_id", "a_attempt_id", "a_removal_id", "a_task_id", "a_drafted_title", "a_drafted_note", CONSTRAINT pk_j_refit_step PRIMARY KEY (change_id), CONSTRAINT fk_j_refit_step_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_removal_part (change_id INTEGER NOT NULL, "b_id", "b_removal_id", "b_part_id", "a_id", "a_removal_id", "a_part_id", CONSTRAINT pk_j_removal_part PRIMARY KEY (change_id), CONSTRAINT fk_j_removal_part_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_shim_pack (change_id INTEGER NOT NULL, "b_id", "b_removal_id", "b_location", "b_side", "b_way_round", "b_material", "b_note", "a_id", "a_removal_id", "a_location", "a_side", "a_way_round", "a_material", "a_note", CONSTRAINT pk_j_shim_pack PRIMARY KEY (change_id), CONSTRAINT fk_j_shim_pack_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_waiting (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_task_id", "b_place_id", "b_kind", "b_what", "b_who", "b_reference", "b_quantity", "b_sent_with", "b_price", "b_carriage", "b_tax", "b_lead_low_days", "b_lead_likely_days", "b_lead_high_days", "b_asked_at", "b_good_until", "b_ordered_at", "b_promised_at", "b_chased_at", "b_arrived_at", "b_inspected_at", "b_inspected_note", "b_returned_at", "b_note", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_task_id", "a_place_id", "a_kind", "a_what", "a_who", "a_reference", "a_quantity", "a_sent_with", "a_price", "a_carriage", "a_tax", "a_lead_low_days", "a_lead_likely_days", "a_lead_high_days", "a_asked_at", "a_good_until", "a_ordered_at", "a_promised_at", "a_chased_at", "a_arrived_at", "a_inspected_at", "a_inspected_note", "a_returned_at", "a_note", CONSTRAINT pk_j_waiting PRIMARY KEY (change_id), CONSTRAINT fk_j_waiting_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_clock (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_task_id", "b_joint_id", "b_kind", "b_what", "b_started_at", "b_low_min", "b_high_min", "b_source", "b_closed_at", "b_closed_note", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_task_id", "a_joint_id", "a_kind", "a_what", "a_started_at", "a_low_min", "a_high_min", "a_source", "a_closed_at", "a_closed_note", CONSTRAINT pk_j_clock PRIMARY KEY (change_id), CONSTRAINT fk_j_clock_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_constraint_part (change_id INTEGER NOT NULL, "b_id", "b_constraint_id", "b_part_id", "a_id", "a_constraint_id", "a_part_id", CONSTRAINT pk_j_constraint_part PRIMARY KEY (change_id), CONSTRAINT fk_j_constraint_part_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_drafted_link (change_id INTEGER NOT NULL, "b_id", "b_before_id", "b_after_id", "b_link_id", "a_id", "a_before_id", "a_after_id", "a_link_id", CONSTRAINT pk_j_drafted_link PRIMARY KEY (change_id), CONSTRAINT fk_j_drafted_link_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_fastener (change_id INTEGER NOT NULL, "b_id", "b_removal_id", "b_joint_id", "b_kind", "b_hole", "b_count", "b_thread", "b_left_hand", "b_length_text", "b_length_unit", "b_length_mm", "b_head", "b_point", "b_grade", "b_big_end", "b_hidden", "b_state", "b_substitute", "b_note", "b_position", "a_id", "a_removal_id", "a_joint_id", "a_kind", "a_hole", "a_count", "a_thread", "a_left_hand", "a_length_text", "a_length_unit", "a_length_mm", "a_head", "a_point", "a_grade", "a_big_end", "a_hidden", "a_state", "a_substitute", "a_note", "a_position", CONSTRAINT pk_j_fastener PRIMARY KEY (change_id), CONSTRAINT fk_j_fastener_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_shim_leaf (change_id INTEGER NOT NULL, "b_id", "b_pack_id", "b_thickness_text", "b_thickness_unit", "b_thickness_mm", "b_note", "b_position", "a_id", "a_pack_id", "a_thickness_text", "a_thickness_unit", "a_thickness_mm", "a_note", "a_position", CONSTRAINT pk_j_shim_leaf PRIMARY KEY (change_id), CONSTRAINT fk_j_shim_leaf_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE day_off (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	first VARCHAR(19) NOT NULL, 
	last VARCHAR(19) NOT NULL, 
	why VARCHAR NOT NULL
);
CREATE TABLE work_spell (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	weekday INTEGER NOT NULL, 
	start_min INTEGER NOT NULL, 
	end_min INTEGER NOT NULL
);
CREATE TABLE j_day_off (change_id INTEGER NOT NULL, "b_id", "b_first", "b_last", "b_why", "a_id", "a_first", "a_last", "a_why", CONSTRAINT pk_j_day_off PRIMARY KEY (change_id), CONSTRAINT fk_j_day_off_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_work_spell (change_id INTEGER NOT NULL, "b_id", "b_weekday", "b_start_min", "b_end_min", "a_id", "a_weekday", "a_start_min", "a_end_min", CONSTRAINT pk_j_work_spell PRIMARY KEY (change_id), CONSTRAINT fk_j_work_spell_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE survey (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	part_id INTEGER, 
	before_id INTEGER, 
	name VARCHAR NOT NULL, 
	method VARCHAR(40) NOT NULL, 
	stage VARCHAR(40) NOT NULL, 
	unit VARCHAR NOT NULL, 
	division_um_per_m DOUBLE, 
	step_text VARCHAR, 
	step_unit VARCHAR, 
	step_mm DOUBLE, 
	allowed_text VARCHAR, 
	allowed_unit VARCHAR, 
	allowed_mm DOUBLE, 
	closure_text VARCHAR, 
	closure_unit VARCHAR, 
	closure_mm DOUBLE, 
	height_text VARCHAR, 
	height_unit VARCHAR, 
	height_mm DOUBLE, 
	spacing_text VARCHAR, 
	spacing_unit VARCHAR, 
	spacing_mm DOUBLE, 
	work_text VARCHAR, 
	work_unit VARCHAR, 
	work_mm DOUBLE, 
	sense VARCHAR NOT NULL, 
	instrument_id INTEGER, 
	temperature_c DOUBLE, 
	taken_at VARCHAR(19), 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_survey_before_id_survey FOREIGN KEY(before_id) REFERENCES survey (id) ON DELETE SET NULL, 
	CONSTRAINT fk_survey_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL, 
	CONSTRAINT fk_survey_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_survey_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL
);
CREATE INDEX ix_survey_before_id ON survey (before_id);
CREATE INDEX ix_survey_instrument_id ON survey (instrument_id);
CREATE INDEX ix_survey_machine_id ON survey (machine_id);
CREATE INDEX ix_survey_part_id ON survey (part_id);
CREATE TABLE survey_line (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	survey_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_survey_line_survey_id_survey FOREIGN KEY(survey_id) REFERENCES survey (id) ON DELETE CASCADE
);
CREATE INDEX ix_survey_line_survey_position ON survey_line (survey_id, position);
CREATE TABLE survey_reading (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	line_id INTEGER NOT NULL, 
	run INTEGER NOT NULL, 
	place INTEGER NOT NULL, 
	typed VARCHAR NOT NULL, 
	value DOUBLE NOT NULL, 
	CONSTRAINT fk_survey_reading_line_id_survey_line FOREIGN KEY(line_id) REFERENCES survey_line (id) ON DELETE CASCADE
);
CREATE INDEX ix_survey_reading_line_run ON survey_reading (line_id, run, place);
CREATE TABLE j_survey (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_part_id", "b_before_id", "b_name", "b_method", "b_stage", "b_unit", "b_division_um_per_m", "b_step_text", "b_step_unit", "b_step_mm", "b_allowed_text", "b_allowed_unit", "b_allowed_mm", "b_closure_text", "b_closure_unit", "b_closure_mm", "b_height_text", "b_height_unit", "b_height_mm", "b_spacing_text", "b_spacing_unit", "b_spacing_mm", "b_work_text", "b_work_unit", "b_work_mm", "b_sense", "b_instrument_id", "b_temperature_c", "b_taken_at", "b_note", "b_position", "a_id", "a_machine_id", "a_part_id", "a_before_id", "a_name", "a_method", "a_stage", "a_unit", "a_division_um_per_m", "a_step_text", "a_step_unit", "a_step_mm", "a_allowed_text", "a_allowed_unit", "a_allowed_mm", "a_closure_text", "a_closure_unit", "a_closure_mm", "a_height_text", "a_height_unit", "a_height_mm", "a_spacing_text", "a_spacing_unit", "a_spacing_mm", "a_work_text", "a_work_unit", "a_work_mm", "a_sense", "a_instrument_id", "a_temperature_c", "a_taken_at", "a_note", "a_position", CONSTRAINT pk_j_survey PRIMARY KEY (change_id), CONSTRAINT fk_j_survey_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_survey_line (change_id INTEGER NOT NULL, "b_id", "b_survey_id", "b_name", "b_position", "a_id", "a_survey_id", "a_name", "a_position", CONSTRAINT pk_j_survey_line PRIMARY KEY (change_id), CONSTRAINT fk_j_survey_line_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_survey_reading (change_id INTEGER NOT NULL, "b_id", "b_line_id", "b_run", "b_place", "b_typed", "b_value", "a_id", "a_line_id", "a_run", "a_place", "a_typed", "a_value", CONSTRAINT pk_j_survey_reading PRIMARY KEY (change_id), CONSTRAINT fk_j_survey_reading_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE chart_test (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	after_id INTEGER, 
	"key" VARCHAR NOT NULL, 
	number VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	sketch VARCHAR NOT NULL, 
	set_up VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_chart_test_after_id_chart_test FOREIGN KEY(after_id) REFERENCES chart_test (id) ON DELETE SET NULL, 
	CONSTRAINT fk_chart_test_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_chart_test_after_id ON chart_test (after_id);
CREATE INDEX ix_chart_test_machine_position ON chart_test (machine_id, position);
CREATE TABLE cut_test (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	stage VARCHAR(40) NOT NULL, 
	unit VARCHAR NOT NULL, 
	first_text VARCHAR, 
	first_unit VARCHAR, 
	first_mm DOUBLE, 
	second_text VARCHAR, 
	second_unit VARCHAR, 
	second_mm DOUBLE, 
	apart_text VARCHAR, 
	apart_unit VARCHAR, 
	apart_mm DOUBLE, 
	allowed_text VARCHAR, 
	allowed_unit VARCHAR, 
	allowed_mm DOUBLE, 
	allowed_over_text VARCHAR, 
	allowed_over_unit VARCHAR, 
	allowed_over_mm DOUBLE, 
	allowed_origin VARCHAR NOT NULL, 
	allowed_status VARCHAR(40) NOT NULL, 
	instrument_id INTEGER, 
	temperature_c DOUBLE, 
	taken_at VARCHAR(19) NOT NULL, 
	adjusted VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_cut_test_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL, 
	CONSTRAINT fk_cut_test_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_cut_test_instrument_id ON cut_test (instrument_id);
CREATE INDEX ix_cut_test_machine_at ON cut_test (machine_id, taken_at);
CREATE TABLE level_reading (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	place VARCHAR NOT NULL, 
	at_text VARCHAR, 
	at_unit VARCHAR, 
	at_mm DOUBLE, 
	way VARCHAR(40) NOT NULL, 
	typed VARCHAR NOT NULL, 
	slope_um_per_m DOUBLE NOT NULL, 
	division VARCHAR NOT NULL, 
	instrument_id INTEGER, 
	temperature_c DOUBLE, 
	taken_at VARCHAR(19) NOT NULL, 
	adjusted VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_level_reading_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL, 
	CONSTRAINT fk_level_reading_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_level_reading_instrument_id ON level_reading (instrument_id);
CREATE INDEX ix_level_reading_machine_at ON level_reading (machine_id, taken_at);
CREATE TABLE run_look (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	due VARCHAR(40) NOT NULL, 
	text VARCHAR NOT NULL, 
	topic VARCHAR NOT NULL, 
	licensed BOOLEAN NOT NULL, 
	done_at VARCHAR(19), 
	done_by VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_run_look_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_run_look_machine_position ON run_look (machine_id, position);
CREATE TABLE run_step (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	speed_rpm DOUBLE, 
	planned_min DOUBLE, 
	limit_c DOUBLE, 
	limit_origin VARCHAR NOT NULL, 
	limit_status VARCHAR(40) NOT NULL, 
	state VARCHAR(40) NOT NULL, 
	ambient_c DOUBLE, 
	started_at VARCHAR(19), 
	noise VARCHAR NOT NULL, 
	oil_seen VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_run_step_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_run_step_machine_position ON run_step (machine_id, position);
CREATE TABLE chart_line (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	test_id INTEGER NOT NULL, 
	"key" VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	unit VARCHAR NOT NULL, 
	sign VARCHAR(40) NOT NULL, 
	plus_means VARCHAR NOT NULL, 
	minus_means VARCHAR NOT NULL, 
	allowed_text VARCHAR, 
	allowed_unit VARCHAR, 
	allowed_mm DOUBLE, 
	per_text VARCHAR, 
	per_unit VARCHAR, 
	per_mm DOUBLE, 
	along VARCHAR(40) NOT NULL, 
	origin VARCHAR NOT NULL, 
	status VARCHAR(40) NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_chart_line_test_id_chart_test FOREIGN KEY(test_id) REFERENCES chart_test (id) ON DELETE CASCADE
);
CREATE INDEX ix_chart_line_test_position ON chart_line (test_id, position);
CREATE TABLE run_reading (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	step_id INTEGER NOT NULL, 
	bearing VARCHAR NOT NULL, 
	minute DOUBLE NOT NULL, 
	celsius DOUBLE NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_run_reading_step_id_run_step FOREIGN KEY(step_id) REFERENCES run_step (id) ON DELETE CASCADE
);
CREATE INDEX ix_run_reading_step_bearing ON run_reading (step_id, bearing, minute);
CREATE TABLE chart_reading (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	line_id INTEGER NOT NULL, 
	stage VARCHAR(40) NOT NULL, 
	typed VARCHAR NOT NULL, 
	value_mm DOUBLE NOT NULL, 
	over_text VARCHAR, 
	over_unit VARCHAR, 
	over_mm DOUBLE, 
	instrument_id INTEGER, 
	temperature_c DOUBLE, 
	taken_at VARCHAR(19) NOT NULL, 
	adjusted VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_chart_reading_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL, 
	CONSTRAINT fk_chart_reading_line_id_chart_line FOREIGN KEY(line_id) REFERENCES chart_line (id) ON DELETE CASCADE
);
CREATE INDEX ix_chart_reading_instrument_id ON chart_reading (instrument_id);
CREATE INDEX ix_chart_reading_line_stage ON chart_reading (line_id, stage, id);
CREATE TABLE oil_point (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	fed_by_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	number VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	feeds VARCHAR NOT NULL, 
	path VARCHAR NOT NULL, 
	old_oil VARCHAR NOT NULL, 
	duty VARCHAR NOT NULL, 
	oil VARCHAR NOT NULL, 
	quantity VARCHAR NOT NULL, 
	interval VARCHAR NOT NULL, 
	dose_ml DOUBLE, 
	delivery_ml DOUBLE, 
	first_fill_at VARCHAR(19), 
	proof VARCHAR(40) NOT NULL, 
	proved_at VARCHAR(19), 
	proved_note VARCHAR NOT NULL, 
	x DOUBLE, 
	y DOUBLE, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_oil_point_fed_by_id_oil_point FOREIGN KEY(fed_by_id) REFERENCES oil_point (id) ON DELETE SET NULL, 
	CONSTRAINT fk_oil_point_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_oil_point_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_oil_point_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_oil_point_fed_by_id ON oil_point (fed_by_id);
CREATE INDEX ix_oil_point_machine_position ON oil_point (machine_id, position);
CREATE INDEX ix_oil_point_part_id ON oil_point (part_id);
CREATE INDEX ix_oil_point_task_id ON oil_point (task_id);
CREATE TABLE j_chart_test (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_after_id", "b_key", "b_number", "b_name", "b_sketch", "b_set_up", "b_note", "b_position", "a_id", "a_machine_id", "a_after_id", "a_key", "a_number", "a_name", "a_sketch", "a_set_up", "a_note", "a_position", CONSTRAINT pk_j_chart_test PRIMARY KEY (change_id), CONSTRAINT fk_j_chart_test_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_cut_test (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_kind", "b_stage", "b_unit", "b_first_text", "b_first_unit", "b_first_mm", "b_second_text", "b_second_unit", "b_second_mm", "b_apart_text", "b_apart_unit", "b_apart_mm", "b_allowed_text", "b_allowed_unit", "b_allowed_mm", "b_allowed_over_text", "b_allowed_over_unit", "b_allowed_over_mm", "b_allowed_origin", "b_allowed_status", "b_instrument_id", "b_temperature_c", "b_taken_at", "b_adjusted", "b_note", "a_id", "a_machine_id", "a_kind", "a_stage", "a_unit", "a_first_text", "a_first_unit", "a_first_mm", "a_second_text", "a_second_unit", "a_second_mm", "a_apart_text", "a_apart_unit", "a_apart_mm", "a_allowed_text", "a_allowed_unit", "a_allowed_mm", "a_allowed_over_text", "a_allowed_over_unit", "a_allowed_over_mm", "a_allowed_origin", "a_allowed_status", "a_instrument_id", "a_temperature_c", "a_taken_at", "a_adjusted", "a_note", CONSTRAINT pk_j_cut_test PRIMARY KEY (change_id), CONSTRAINT fk_j_cut_test_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_level_reading (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_place", "b_at_text", "b_at_unit", "b_at_mm", "b_way", "b_typed", "b_slope_um_per_m", "b_division", "b_instrument_id", "b_temperature_c", "b_taken_at", "b_adjusted", "b_note", "a_id", "a_machine_id", "a_place", "a_at_text", "a_at_unit", "a_at_mm", "a_way", "a_typed", "a_slope_um_per_m", "a_division", "a_instrument_id", "a_temperature_c", "a_taken_at", "a_adjusted", "a_note", CONSTRAINT pk_j_level_reading PRIMARY KEY (change_id), CONSTRAINT fk_j_level_reading_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_run_look (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_due", "b_text", "b_topic", "b_licensed", "b_done_at", "b_done_by", "b_note", "b_position", "a_id", "a_machine_id", "a_due", "a_text", "a_topic", "a_licensed", "a_done_at", "a_done_by", "a_note", "a_position", CONSTRAINT pk_j_run_look PRIMARY KEY (change_id), CONSTRAINT fk_j_run_look_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_run_step (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_name", "b_speed_rpm", "b_planned_min", "b_limit_c", "b_limit_origin", "b_limit_status", "b_state", "b_ambient_c", "b_started_at", "b_noise", "b_oil_seen", "b_note", "b_position", "a_id", "a_machine_id", "a_name", "a_speed_rpm", "a_planned_min", "a_limit_c", "a_limit_origin", "a_limit_status", "a_state", "a_ambient_c", "a_started_at", "a_noise", "a_oil_seen", "a_note", "a_position", CONSTRAINT pk_j_run_step PRIMARY KEY (change_id), CONSTRAINT fk_j_run_step_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_chart_line (change_id INTEGER NOT NULL, "b_id", "b_test_id", "b_key", "b_name", "b_unit", "b_sign", "b_plus_means", "b_minus_means", "b_allowed_text", "b_allowed_unit", "b_allowed_mm", "b_per_text", "b_per_unit", "b_per_mm", "b_along", "b_origin", "b_status", "b_position", "a_id", "a_test_id", "a_key", "a_name", "a_unit", "a_sign", "a_plus_means", "a_minus_means", "a_allowed_text", "a_allowed_unit", "a_allowed_mm", "a_per_text", "a_per_unit", "a_per_mm", "a_along", "a_origin", "a_status", "a_position", CONSTRAINT pk_j_chart_line PRIMARY KEY (change_id), CONSTRAINT fk_j_chart_line_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_run_reading (change_id INTEGER NOT NULL, "b_id", "b_step_id", "b_bearing", "b_minute", "b_celsius", "b_note", "a_id", "a_step_id", "a_bearing", "a_minute", "a_celsius", "a_note", CONSTRAINT pk_j_run_reading PRIMARY KEY (change_id), CONSTRAINT fk_j_run_reading_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_chart_reading (change_id INTEGER NOT NULL, "b_id", "b_line_id", "b_stage", "b_typed", "b_value_mm", "b_over_text", "b_over_unit", "b_over_mm", "b_instrument_id", "b_temperature_c", "b_taken_at", "b_adjusted", "b_note", "a_id", "a_line_id", "a_stage", "a_typed", "a_value_mm", "a_over_text", "a_over_unit", "a_over_mm", "a_instrument_id", "a_temperature_c", "a_taken_at", "a_adjusted", "a_note", CONSTRAINT pk_j_chart_reading PRIMARY KEY (change_id), CONSTRAINT fk_j_chart_reading_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_oil_point (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_fed_by_id", "b_part_id", "b_task_id", "b_number", "b_kind", "b_feeds", "b_path", "b_old_oil", "b_duty", "b_oil", "b_quantity", "b_interval", "b_dose_ml", "b_delivery_ml", "b_first_fill_at", "b_proof", "b_proved_at", "b_proved_note", "b_x", "b_y", "b_note", "b_position", "a_id", "a_machine_id", "a_fed_by_id", "a_part_id", "a_task_id", "a_number", "a_kind", "a_feeds", "a_path", "a_old_oil", "a_duty", "a_oil", "a_quantity", "a_interval", "a_dose_ml", "a_delivery_ml", "a_first_fill_at", "a_proof", "a_proved_at", "a_proved_note", "a_x", "a_y", "a_note", "a_position", CONSTRAINT pk_j_oil_point PRIMARY KEY (change_id), CONSTRAINT fk_j_oil_point_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE photo (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	task_id INTEGER, 
	sha256 VARCHAR NOT NULL, 
	ending VARCHAR NOT NULL, 
	file_name VARCHAR NOT NULL, 
	width INTEGER NOT NULL, 
	height INTEGER NOT NULL, 
	taken_at VARCHAR(19), 
	phase VARCHAR(40) NOT NULL, 
	"view" VARCHAR NOT NULL, 
	proves VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, camera VARCHAR, 
	CONSTRAINT fk_photo_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_photo_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL, 
	CONSTRAINT fk_photo_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_photo_machine_taken ON photo (machine_id, taken_at);
CREATE INDEX ix_photo_part_id ON photo (part_id);
CREATE INDEX ix_photo_sha256 ON photo (sha256);
CREATE INDEX ix_photo_subassembly_id ON photo (subassembly_id);
CREATE INDEX ix_photo_task_id ON photo (task_id);
CREATE TABLE photo_mark (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	photo_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	x DOUBLE NOT NULL, 
	y DOUBLE NOT NULL, 
	x2 DOUBLE NOT NULL, 
	y2 DOUBLE NOT NULL, 
	text VARCHAR NOT NULL, 
	CONSTRAINT fk_photo_mark_photo_id_photo FOREIGN KEY(photo_id) REFERENCES photo (id) ON DELETE CASCADE
);
CREATE INDEX ix_photo_mark_photo_id ON photo_mark (photo_id);
CREATE TABLE j_photo (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_task_id", "b_sha256", "b_ending", "b_file_name", "b_width", "b_height", "b_taken_at", "b_phase", "b_view", "b_proves", "b_note", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_task_id", "a_sha256", "a_ending", "a_file_name", "a_width", "a_height", "a_taken_at", "a_phase", "a_view", "a_proves", "a_note", "b_camera", "a_camera", CONSTRAINT pk_j_photo PRIMARY KEY (change_id), CONSTRAINT fk_j_photo_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE j_photo_mark (change_id INTEGER NOT NULL, "b_id", "b_photo_id", "b_kind", "b_x", "b_y", "b_x2", "b_y2", "b_text", "a_id", "a_photo_id", "a_kind", "a_x", "a_y", "a_x2", "a_y2", "a_text", CONSTRAINT pk_j_photo_mark PRIMARY KEY (change_id), CONSTRAINT fk_j_photo_mark_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE unplaced (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	typed VARCHAR NOT NULL, 
	sent_at VARCHAR(19) NOT NULL, 
	seen_on VARCHAR NOT NULL, 
	instrument_id INTEGER, 
	temperature_text VARCHAR, 
	taken_by VARCHAR NOT NULL, 
	CONSTRAINT fk_unplaced_instrument_id_instrument FOREIGN KEY(instrument_id) REFERENCES instrument (id) ON DELETE SET NULL
);
CREATE INDEX ix_unplaced_instrument_id ON unplaced (instrument_id);
CREATE TABLE j_unplaced (change_id INTEGER NOT NULL, "b_id", "b_typed", "b_sent_at", "b_seen_on", "b_instrument_id", "b_temperature_text", "b_taken_by", "a_id", "a_typed", "a_sent_at", "a_seen_on", "a_instrument_id", "a_temperature_text", "a_taken_by", CONSTRAINT pk_j_unplaced PRIMARY KEY (change_id), CONSTRAINT fk_j_unplaced_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE override (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	gate VARCHAR(40) NOT NULL, 
	task_id INTEGER, 
	run_step_id INTEGER, 
	joint_id INTEGER, 
	what VARCHAR NOT NULL, 
	against VARCHAR NOT NULL, 
	covers VARCHAR NOT NULL, 
	reason VARCHAR NOT NULL, 
	said_by VARCHAR NOT NULL, 
	at VARCHAR(19) NOT NULL, 
	closed_at VARCHAR(19), 
	closed_note VARCHAR NOT NULL, 
	CONSTRAINT fk_override_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_override_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL, 
	CONSTRAINT fk_override_run_step_id_run_step FOREIGN KEY(run_step_id) REFERENCES run_step (id) ON DELETE SET NULL, 
	CONSTRAINT fk_override_joint_id_joint FOREIGN KEY(joint_id) REFERENCES joint (id) ON DELETE SET NULL
);
CREATE INDEX ix_override_machine_closed ON override (machine_id, closed_at);
CREATE INDEX ix_override_task_id ON override (task_id);
CREATE INDEX ix_override_run_step_id ON override (run_step_id);
CREATE INDEX ix_override_joint_id ON override (joint_id);
CREATE TABLE j_override (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_gate", "b_task_id", "b_run_step_id", "b_joint_id", "b_what", "b_against", "b_covers", "b_reason", "b_said_by", "b_at", "b_closed_at", "b_closed_note", "a_id", "a_machine_id", "a_gate", "a_task_id", "a_run_step_id", "a_joint_id", "a_what", "a_against", "a_covers", "a_reason", "a_said_by", "a_at", "a_closed_at", "a_closed_note", CONSTRAINT pk_j_override PRIMARY KEY (change_id), CONSTRAINT fk_j_override_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE step_attempt (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	task_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	done_at VARCHAR(19), 
	measured VARCHAR NOT NULL, 
	torque VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	joints VARCHAR NOT NULL, 
	opened_at VARCHAR(19) NOT NULL, 
	reason VARCHAR NOT NULL, 
	CONSTRAINT fk_step_attempt_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE
);
CREATE INDEX ix_step_attempt_task_number ON step_attempt (task_id, number);
CREATE TABLE j_step_attempt (change_id INTEGER NOT NULL, "b_id", "b_task_id", "b_number", "b_done_at", "b_measured", "b_torque", "b_note", "b_joints", "b_opened_at", "b_reason", "a_id", "a_task_id", "a_number", "a_done_at", "a_measured", "a_torque", "a_note", "a_joints", "a_opened_at", "a_reason", CONSTRAINT pk_j_step_attempt PRIMARY KEY (change_id), CONSTRAINT fk_j_step_attempt_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE stay (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	place_id INTEGER, 
	removal_id INTEGER, 
	waiting_id INTEGER, 
	came_at VARCHAR(19), 
	left_at VARCHAR(19), 
	CONSTRAINT fk_stay_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE, 
	CONSTRAINT fk_stay_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL, 
	CONSTRAINT fk_stay_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE SET NULL, 
	CONSTRAINT fk_stay_waiting_id_waiting FOREIGN KEY(waiting_id) REFERENCES waiting (id) ON DELETE SET NULL
);
CREATE INDEX ix_stay_part_left ON stay (part_id, left_at);
CREATE INDEX ix_stay_place_left ON stay (place_id, left_at);
CREATE INDEX ix_stay_removal_id ON stay (removal_id);
CREATE INDEX ix_stay_waiting_id ON stay (waiting_id);
CREATE TABLE j_stay (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_place_id", "b_removal_id", "b_waiting_id", "b_came_at", "b_left_at", "a_id", "a_part_id", "a_place_id", "a_removal_id", "a_waiting_id", "a_came_at", "a_left_at", CONSTRAINT pk_j_stay PRIMARY KEY (change_id), CONSTRAINT fk_j_stay_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE means (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	kind VARCHAR(40) NOT NULL, 
	name VARCHAR NOT NULL, 
	owned BOOLEAN NOT NULL, 
	place_id INTEGER, 
	task_id INTEGER, 
	waiting_id INTEGER, 
	note VARCHAR NOT NULL, 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_means_place_id_place FOREIGN KEY(place_id) REFERENCES place (id) ON DELETE SET NULL, 
	CONSTRAINT fk_means_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL, 
	CONSTRAINT fk_means_waiting_id_waiting FOREIGN KEY(waiting_id) REFERENCES waiting (id) ON DELETE SET NULL
);
CREATE INDEX ix_means_place_id ON means (place_id);
CREATE INDEX ix_means_task_id ON means (task_id);
CREATE INDEX ix_means_waiting_id ON means (waiting_id);
CREATE TABLE j_means (change_id INTEGER NOT NULL, "b_id", "b_kind", "b_name", "b_owned", "b_place_id", "b_task_id", "b_waiting_id", "b_note", "b_position", "a_id", "a_kind", "a_name", "a_owned", "a_place_id", "a_task_id", "a_waiting_id", "a_note", "a_position", CONSTRAINT pk_j_means PRIMARY KEY (change_id), CONSTRAINT fk_j_means_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE step_means (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	task_id INTEGER NOT NULL, 
	means_id INTEGER NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_step_means_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE, 
	CONSTRAINT fk_step_means_means_id_means FOREIGN KEY(means_id) REFERENCES means (id) ON DELETE CASCADE
);
CREATE INDEX ix_step_means_task_means ON step_means (task_id, means_id);
CREATE INDEX ix_step_means_means_id ON step_means (means_id);
CREATE TABLE j_step_means (change_id INTEGER NOT NULL, "b_id", "b_task_id", "b_means_id", "b_note", "a_id", "a_task_id", "a_means_id", "a_note", CONSTRAINT pk_j_step_means PRIMARY KEY (change_id), CONSTRAINT fk_j_step_means_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE control (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	subassembly_id INTEGER, 
	part_id INTEGER, 
	doubles_id INTEGER, 
	photo_id INTEGER, 
	name VARCHAR NOT NULL, 
	location VARCHAR NOT NULL, 
	does VARCHAR NOT NULL, 
	unit VARCHAR NOT NULL, 
	dial VARCHAR NOT NULL, 
	engages VARCHAR NOT NULL, 
	retracts VARCHAR NOT NULL, 
	trapped VARCHAR NOT NULL, 
	handed VARCHAR NOT NULL, 
	found VARCHAR NOT NULL, 
	proved VARCHAR NOT NULL, 
	proved_by VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	due VARCHAR(40) NOT NULL, 
	found_at VARCHAR(19), 
	proved_at VARCHAR(19), 
	position INTEGER NOT NULL, 
	per_turn_text VARCHAR, 
	per_turn_unit VARCHAR, 
	per_turn_mm DOUBLE, 
	found_turn_text VARCHAR, 
	found_turn_unit VARCHAR, 
	found_turn_mm DOUBLE, 
	proved_turn_text VARCHAR, 
	proved_turn_unit VARCHAR, 
	proved_turn_mm DOUBLE, 
	CONSTRAINT fk_control_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE, 
	CONSTRAINT fk_control_subassembly_id_subassembly FOREIGN KEY(subassembly_id) REFERENCES subassembly (id) ON DELETE SET NULL, 
	CONSTRAINT fk_control_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_control_doubles_id_control FOREIGN KEY(doubles_id) REFERENCES control (id) ON DELETE SET NULL, 
	CONSTRAINT fk_control_photo_id_photo FOREIGN KEY(photo_id) REFERENCES photo (id) ON DELETE SET NULL
);
CREATE INDEX ix_control_machine_position ON control (machine_id, position);
CREATE INDEX ix_control_subassembly_id ON control (subassembly_id);
CREATE INDEX ix_control_part_id ON control (part_id);
CREATE INDEX ix_control_doubles_id ON control (doubles_id);
CREATE INDEX ix_control_photo_id ON control (photo_id);
CREATE TABLE j_control (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_subassembly_id", "b_part_id", "b_doubles_id", "b_photo_id", "b_name", "b_location", "b_does", "b_unit", "b_dial", "b_engages", "b_retracts", "b_trapped", "b_handed", "b_found", "b_proved", "b_proved_by", "b_note", "b_kind", "b_due", "b_found_at", "b_proved_at", "b_position", "b_per_turn_text", "b_per_turn_unit", "b_per_turn_mm", "b_found_turn_text", "b_found_turn_unit", "b_found_turn_mm", "b_proved_turn_text", "b_proved_turn_unit", "b_proved_turn_mm", "a_id", "a_machine_id", "a_subassembly_id", "a_part_id", "a_doubles_id", "a_photo_id", "a_name", "a_location", "a_does", "a_unit", "a_dial", "a_engages", "a_retracts", "a_trapped", "a_handed", "a_found", "a_proved", "a_proved_by", "a_note", "a_kind", "a_due", "a_found_at", "a_proved_at", "a_position", "a_per_turn_text", "a_per_turn_unit", "a_per_turn_mm", "a_found_turn_text", "a_found_turn_unit", "a_found_turn_mm", "a_proved_turn_text", "a_proved_turn_unit", "a_proved_turn_mm", CONSTRAINT pk_j_control PRIMARY KEY (change_id), CONSTRAINT fk_j_control_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE INDEX ix_reading_value_mm ON reading (value_mm);
CREATE INDEX ix_feature_nominal_mm ON feature (nominal_mm);
CREATE INDEX ix_feature_low_mm ON feature (low_mm);
CREATE INDEX ix_feature_high_mm ON feature (high_mm);
CREATE TABLE find_mark (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	upto INTEGER NOT NULL, 
	made_of VARCHAR NOT NULL
);
CREATE VIRTUAL TABLE find_words USING fts5(words, tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2');
CREATE TABLE photo_subject (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	photo_id INTEGER NOT NULL, 
	part_id INTEGER, 
	removal_id INTEGER, 
	task_id INTEGER, 
	joint_id INTEGER, 
	survey_id INTEGER, 
	question_id INTEGER, 
	CONSTRAINT fk_photo_subject_photo_id_photo FOREIGN KEY(photo_id) REFERENCES photo (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_removal_id_removal FOREIGN KEY(removal_id) REFERENCES removal (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_joint_id_joint FOREIGN KEY(joint_id) REFERENCES joint (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_survey_id_survey FOREIGN KEY(survey_id) REFERENCES survey (id) ON DELETE CASCADE, 
	CONSTRAINT fk_photo_subject_question_id_question FOREIGN KEY(question_id) REFERENCES question (id) ON DELETE CASCADE
);
CREATE INDEX ix_photo_subject_photo_id ON photo_subject (photo_id);
CREATE INDEX ix_photo_subject_part_id ON photo_subject (part_id);
CREATE INDEX ix_photo_subject_removal_id ON photo_subject (removal_id);
CREATE INDEX ix_photo_subject_task_id ON photo_subject (task_id);
CREATE INDEX ix_photo_subject_joint_id ON photo_subject (joint_id);
CREATE INDEX ix_photo_subject_survey_id ON photo_subject (survey_id);
CREATE INDEX ix_photo_subject_question_id ON photo_subject (question_id);
CREATE TABLE j_photo_subject (change_id INTEGER NOT NULL, "b_id", "b_photo_id", "b_part_id", "b_removal_id", "b_task_id", "b_joint_id", "b_survey_id", "b_question_id", "a_id", "a_photo_id", "a_part_id", "a_removal_id", "a_task_id", "a_joint_id", "a_survey_id", "a_question_id", CONSTRAINT pk_j_photo_subject PRIMARY KEY (change_id), CONSTRAINT fk_j_photo_subject_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE camera (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	name VARCHAR NOT NULL, 
	fast_s DOUBLE NOT NULL, 
	note VARCHAR NOT NULL
);
CREATE TABLE j_camera (change_id INTEGER NOT NULL, "b_id", "b_name", "b_fast_s", "b_note", "a_id", "a_name", "a_fast_s", "a_note", CONSTRAINT pk_j_camera PRIMARY KEY (change_id), CONSTRAINT fk_j_camera_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE document (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	machine_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	file_name VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	CONSTRAINT fk_document_machine_id_machine FOREIGN KEY(machine_id) REFERENCES machine (id) ON DELETE CASCADE
);
CREATE INDEX ix_document_machine_id ON document (machine_id);
CREATE TABLE j_document (change_id INTEGER NOT NULL, "b_id", "b_machine_id", "b_name", "b_file_name", "b_note", "a_id", "a_machine_id", "a_name", "a_file_name", "a_note", CONSTRAINT pk_j_document PRIMARY KEY (change_id), CONSTRAINT fk_j_document_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE document_page (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	document_id INTEGER NOT NULL, 
	number INTEGER NOT NULL, 
	label VARCHAR NOT NULL, 
	sha256 VARCHAR NOT NULL, 
	ending VARCHAR NOT NULL, 
	"inner" INTEGER NOT NULL, 
	width DOUBLE NOT NULL, 
	height DOUBLE NOT NULL, 
	words VARCHAR NOT NULL, 
	CONSTRAINT fk_document_page_document_id_document FOREIGN KEY(document_id) REFERENCES document (id) ON DELETE CASCADE
);
CREATE INDEX ix_document_page_document_number ON document_page (document_id, number);
CREATE INDEX ix_document_page_sha256 ON document_page (sha256);
CREATE TABLE j_document_page (change_id INTEGER NOT NULL, "b_id", "b_document_id", "b_number", "b_label", "b_sha256", "b_ending", "b_inner", "b_width", "b_height", "b_words", "a_id", "a_document_id", "a_number", "a_label", "a_sha256", "a_ending", "a_inner", "a_width", "a_height", "a_words", CONSTRAINT pk_j_document_page PRIMARY KEY (change_id), CONSTRAINT fk_j_document_page_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE call_out (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	page_id INTEGER NOT NULL, 
	part_id INTEGER, 
	feature_id INTEGER, 
	oil_point_id INTEGER, 
	x DOUBLE NOT NULL, 
	y DOUBLE NOT NULL, 
	x2 DOUBLE NOT NULL, 
	y2 DOUBLE NOT NULL, 
	text VARCHAR NOT NULL, 
	differs VARCHAR NOT NULL, 
	CONSTRAINT fk_call_out_page_id_document_page FOREIGN KEY(page_id) REFERENCES document_page (id) ON DELETE CASCADE, 
	CONSTRAINT fk_call_out_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE SET NULL, 
	CONSTRAINT fk_call_out_feature_id_feature FOREIGN KEY(feature_id) REFERENCES feature (id) ON DELETE SET NULL, 
	CONSTRAINT fk_call_out_oil_point_id_oil_point FOREIGN KEY(oil_point_id) REFERENCES oil_point (id) ON DELETE SET NULL
);
CREATE INDEX ix_call_out_page_id ON call_out (page_id);
CREATE INDEX ix_call_out_part_id ON call_out (part_id);
CREATE INDEX ix_call_out_feature_id ON call_out (feature_id);
CREATE INDEX ix_call_out_oil_point_id ON call_out (oil_point_id);
CREATE TABLE j_call_out (change_id INTEGER NOT NULL, "b_id", "b_page_id", "b_part_id", "b_feature_id", "b_oil_point_id", "b_x", "b_y", "b_x2", "b_y2", "b_text", "b_differs", "a_id", "a_page_id", "a_part_id", "a_feature_id", "a_oil_point_id", "a_x", "a_y", "a_x2", "a_y2", "a_text", "a_differs", CONSTRAINT pk_j_call_out PRIMARY KEY (change_id), CONSTRAINT fk_j_call_out_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE mark_part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	mark_id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	CONSTRAINT fk_mark_part_mark_id_photo_mark FOREIGN KEY(mark_id) REFERENCES photo_mark (id) ON DELETE CASCADE, 
	CONSTRAINT fk_mark_part_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_mark_part_mark_id ON mark_part (mark_id);
CREATE INDEX ix_mark_part_part_id ON mark_part (part_id);
CREATE TABLE j_mark_part (change_id INTEGER NOT NULL, "b_id", "b_mark_id", "b_part_id", "a_id", "a_mark_id", "a_part_id", CONSTRAINT pk_j_mark_part PRIMARY KEY (change_id), CONSTRAINT fk_j_mark_part_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE box_thing (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	came_in VARCHAR NOT NULL, 
	went_to VARCHAR NOT NULL, 
	went_at VARCHAR(19), 
	CONSTRAINT fk_box_thing_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_box_thing_part_id ON box_thing (part_id);
CREATE TABLE j_box_thing (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_came_in", "b_went_to", "b_went_at", "a_id", "a_part_id", "a_came_in", "a_went_to", "a_went_at", CONSTRAINT pk_j_box_thing PRIMARY KEY (change_id), CONSTRAINT fk_j_box_thing_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE clue (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	text VARCHAR NOT NULL, 
	size_text VARCHAR, 
	size_unit VARCHAR, 
	size_mm DOUBLE, 
	CONSTRAINT fk_clue_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_clue_part_id ON clue (part_id);
CREATE TABLE j_clue (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_kind", "b_text", "b_size_text", "b_size_unit", "b_size_mm", "a_id", "a_part_id", "a_kind", "a_text", "a_size_text", "a_size_unit", "a_size_mm", CONSTRAINT pk_j_clue PRIMARY KEY (change_id), CONSTRAINT fk_j_clue_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE merged_part (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	was_number INTEGER NOT NULL, 
	was_code VARCHAR NOT NULL, 
	was_name VARCHAR NOT NULL, 
	at VARCHAR(19) NOT NULL, 
	CONSTRAINT fk_merged_part_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE
);
CREATE INDEX ix_merged_part_part_id ON merged_part (part_id);
CREATE TABLE j_merged_part (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_was_number", "b_was_code", "b_was_name", "b_at", "a_id", "a_part_id", "a_was_number", "a_was_code", "a_was_name", "a_at", CONSTRAINT pk_j_merged_part PRIMARY KEY (change_id), CONSTRAINT fk_j_merged_part_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE making_detail (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	sheet_id INTEGER NOT NULL, 
	kind VARCHAR(40) NOT NULL, 
	name VARCHAR NOT NULL, 
	place VARCHAR NOT NULL, 
	size VARCHAR NOT NULL, 
	depth VARCHAR NOT NULL, 
	long VARCHAR NOT NULL, 
	circle VARCHAR NOT NULL, 
	came_out VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	around_deg DOUBLE NOT NULL, 
	count INTEGER NOT NULL, 
	done_at VARCHAR(19), 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_making_detail_sheet_id_making_sheet FOREIGN KEY(sheet_id) REFERENCES making_sheet (id) ON DELETE CASCADE
);
CREATE INDEX ix_making_detail_sheet_position ON making_detail (sheet_id, position);
CREATE TABLE j_making_detail (change_id INTEGER NOT NULL, "b_id", "b_sheet_id", "b_kind", "b_name", "b_place", "b_size", "b_depth", "b_long", "b_circle", "b_came_out", "b_note", "b_around_deg", "b_count", "b_done_at", "b_position", "a_id", "a_sheet_id", "a_kind", "a_name", "a_place", "a_size", "a_depth", "a_long", "a_circle", "a_came_out", "a_note", "a_around_deg", "a_count", "a_done_at", "a_position", CONSTRAINT pk_j_making_detail PRIMARY KEY (change_id), CONSTRAINT fk_j_making_detail_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
CREATE TABLE fitting (
	id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	part_id INTEGER NOT NULL, 
	task_id INTEGER, 
	kind VARCHAR(40) NOT NULL, 
	what VARCHAR NOT NULL, 
	start VARCHAR NOT NULL, 
	allowance VARCHAR NOT NULL, 
	condition VARCHAR NOT NULL, 
	came_out VARCHAR NOT NULL, 
	note VARCHAR NOT NULL, 
	done_at VARCHAR(19), 
	position INTEGER NOT NULL, 
	CONSTRAINT fk_fitting_part_id_part FOREIGN KEY(part_id) REFERENCES part (id) ON DELETE CASCADE, 
	CONSTRAINT fk_fitting_task_id_task FOREIGN KEY(task_id) REFERENCES task (id) ON DELETE SET NULL
);
CREATE INDEX ix_fitting_part_position ON fitting (part_id, position);
CREATE INDEX ix_fitting_task_id ON fitting (task_id);
CREATE TABLE j_fitting (change_id INTEGER NOT NULL, "b_id", "b_part_id", "b_task_id", "b_kind", "b_what", "b_start", "b_allowance", "b_condition", "b_came_out", "b_note", "b_done_at", "b_position", "a_id", "a_part_id", "a_task_id", "a_kind", "a_what", "a_start", "a_allowance", "a_condition", "a_came_out", "a_note", "a_done_at", "a_position", CONSTRAINT pk_j_fitting PRIMARY KEY (change_id), CONSTRAINT fk_j_fitting_change_id_change FOREIGN KEY (change_id) REFERENCES change (id) ON DELETE CASCADE);
INSERT INTO "alembic_version" VALUES ('0022');
INSERT INTO "sqlite_sequence" VALUES ('waiting', 0);
COMMIT;
