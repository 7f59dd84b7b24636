BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE alias (
	id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	code VARCHAR NOT NULL, 
	code_key VARCHAR NOT NULL, 
	source VARCHAR, 
	PRIMARY KEY (id), 
	FOREIGN KEY(part_id) REFERENCES part_type (id)
);
INSERT INTO "alias" VALUES(1,1,'EX1-OLD','EX1010',NULL);
INSERT INTO "alias" VALUES(2,1,'EX-1','EX1','merged');
CREATE TABLE bench_reading (
	id INTEGER NOT NULL, 
	test_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	number FLOAT, 
	word VARCHAR, 
	unit VARCHAR, 
	sentence VARCHAR, 
	source VARCHAR, 
	PRIMARY KEY (id), 
	FOREIGN KEY(test_id) REFERENCES bench_test (id)
);
CREATE TABLE bench_test (
	id INTEGER NOT NULL, 
	lot_id INTEGER NOT NULL, 
	at VARCHAR NOT NULL, 
	bench VARCHAR NOT NULL, 
	state VARCHAR NOT NULL, 
	judged_by VARCHAR NOT NULL, 
	instrument VARCHAR, 
	note VARCHAR, 
	PRIMARY KEY (id), 
	FOREIGN KEY(lot_id) REFERENCES lot (id)
);
INSERT INTO "bench_test" VALUES(1,2,'2026-11-25T11:21:18.577720+00:00','north','clicks','hand',NULL,NULL);
CREATE TABLE bin (
	code VARCHAR NOT NULL, 
	note VARCHAR, 
	PRIMARY KEY (code)
);
INSERT INTO "bin" VALUES('A3-07',NULL);
INSERT INTO "bin" VALUES('A3-08',NULL);
INSERT INTO "bin" VALUES('C1-01',NULL);
INSERT INTO "bin" VALUES('B1',NULL);
CREATE TABLE edge (
	id INTEGER NOT NULL, 
	from_code VARCHAR NOT NULL, 
	from_key VARCHAR NOT NULL, 
	to_code VARCHAR NOT NULL, 
	to_key VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	place VARCHAR, 
	source VARCHAR NOT NULL, 
	date VARCHAR, 
	confidence FLOAT, 
	quantity INTEGER NOT NULL, 
	serial_from VARCHAR, 
	serial_to VARCHAR, 
	note VARCHAR, 
	unit VARCHAR, 
	PRIMARY KEY (id)
);
INSERT INTO "edge" VALUES(1,'EX-0','EX0','EX-1','EX1','superseded-by',NULL,'maker list 2024','2024-05-01',NULL,1,NULL,NULL,NULL,NULL);
CREATE TABLE job (
	id INTEGER NOT NULL, 
	opened_at VARCHAR NOT NULL, 
	kind VARCHAR, 
	maker VARCHAR, 
	model VARCHAR, 
	model_key VARCHAR, 
	serial VARCHAR, 
	customer VARCHAR, 
	complaint VARCHAR, 
	plate VARCHAR NOT NULL, 
	closed_at VARCHAR, 
	outcome VARCHAR, 
	note VARCHAR, 
	PRIMARY KEY (id)
);
INSERT INTO "job" VALUES(1,'2026-11-25T11:21:18.473096+00:00','microwave oven','Brenka','BK-20M','BK20M',NULL,'A. Sample','dead','{}',NULL,NULL,NULL);
CREATE TABLE job_reading (
	id INTEGER NOT NULL, 
	job_id INTEGER NOT NULL, 
	at VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	number FLOAT, 
	unit VARCHAR, 
	method VARCHAR, 
	within BOOLEAN, 
	sentence VARCHAR, 
	source VARCHAR, 
	PRIMARY KEY (id), 
	FOREIGN KEY(job_id) REFERENCES job (id)
);
CREATE TABLE journal (
	seq INTEGER NOT NULL, 
	at VARCHAR NOT NULL, 
	bench VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	lot_id INTEGER, 
	part_id INTEGER, 
	job_id INTEGER, 
	source_unit_id INTEGER, 
	place VARCHAR, 
	quantity INTEGER NOT NULL, 
	held INTEGER NOT NULL, 
	ordered INTEGER NOT NULL, 
	detail VARCHAR NOT NULL, 
	undoes INTEGER, 
	act INTEGER NOT NULL, 
	hash VARCHAR NOT NULL, 
	PRIMARY KEY (seq), 
	FOREIGN KEY(lot_id) REFERENCES lot (id), 
	FOREIGN KEY(part_id) REFERENCES part_type (id), 
	FOREIGN KEY(job_id) REFERENCES job (id), 
	FOREIGN KEY(source_unit_id) REFERENCES source_unit (id), 
	FOREIGN KEY(undoes) REFERENCES journal (seq)
);
INSERT INTO "journal" VALUES(1,'2026-11-25T11:21:18.320266+00:00','north','logged',1,1,NULL,NULL,NULL,9,0,0,'{"bin":"A3-07","state":"clicks"}',NULL,1,'937d6c65a98075346a2f8db5d4f447c801e6087115a7cf4beede8ae6e1cac9eb');
INSERT INTO "journal" VALUES(2,'2026-11-25T11:21:18.367657+00:00','north','unit-logged',NULL,NULL,NULL,1,NULL,0,0,0,'{"label":"U1"}',NULL,2,'0152df3a8a432249b33b54b6c4eb346535d67651023ccfb1bb20a65c98408e6b');
INSERT INTO "journal" VALUES(3,'2026-11-25T11:21:18.377203+00:00','north','logged',2,2,NULL,1,NULL,2,0,0,'{"bin":"A3-08","state":"untested"}',NULL,2,'d889c66e02f606170efd0792b0d2a607648eef735b8dd27dd0e3406bf441f937');
INSERT INTO "journal" VALUES(4,'2026-11-25T11:21:18.377203+00:00','north','logged',3,3,NULL,1,NULL,1,0,0,'{"bin":"C1-01","state":"untested"}',NULL,2,'8a1a1eeed068eaaa3f5b947172f72bcc413e4e37eada3ea8fb1d9f319bd3b92b');
INSERT INTO "journal" VALUES(5,'2026-11-25T11:21:18.398851+00:00','north','logged',4,4,NULL,NULL,NULL,5,0,0,'{"bin":"A3-07","state":"clicks"}',NULL,5,'31cddfa32ea0314504f39cf340e1f2d72c1b8b90177bdf04dcbacfdf2e2ad466');
INSERT INTO "journal" VALUES(6,'2026-11-25T11:21:18.438854+00:00','north','merged',NULL,1,NULL,NULL,NULL,0,0,0,'{"drop":4,"moved":{"added":[2],"alias":[],"lot":[4],"measured":[],"part_type":[4]}}',NULL,6,'a170b6aa052e38efa67bc59748794fc95bce030807ad739e0123b0ed5a25dc12');
INSERT INTO "journal" VALUES(7,'2026-11-25T11:21:18.473841+00:00','north','job-opened',NULL,NULL,1,NULL,NULL,0,0,0,'{}',NULL,7,'d7067239e79652b42eff42124b74d880a33e2b93123540666bf92103db1203af');
INSERT INTO "journal" VALUES(8,'2026-11-25T11:21:18.514470+00:00','north','held',1,1,1,NULL,'monitor',0,2,0,'{}',NULL,8,'a26cf4e4760ae16b3dd50deddc0bc539437365795dcccb3f82c3946c3376a8f7');
INSERT INTO "journal" VALUES(9,'2026-11-25T11:21:18.546127+00:00','north','released',1,1,1,NULL,NULL,0,-1,0,'{}',NULL,9,'4f0128c39836b0e7a64e34203b3e5858436d259b58af84140936413d054d5e37');
INSERT INTO "journal" VALUES(10,'2026-11-25T11:21:18.546127+00:00','north','fitted',1,1,1,NULL,'monitor',-1,0,0,'{}',NULL,9,'a26424ef7d3db6cca2218fa9e5faadfff89790844f16742be9856c20fdb57376');
INSERT INTO "journal" VALUES(11,'2026-11-25T11:21:18.577978+00:00','north','tested',2,2,NULL,NULL,NULL,0,0,0,'{"state":"clicks","test":1,"was":"untested"}',NULL,11,'8fbcc3b1cf5396c77384248dba5a1a6a1bfbf96ce804957dba223d93661a4715');
INSERT INTO "journal" VALUES(12,'2026-11-25T11:21:18.601288+00:00','north','scrapped',3,3,NULL,NULL,NULL,-1,0,0,'{"reason":"bulged"}',NULL,12,'9aa95afa45dd3ce85fa682b63fc55b39036bcb995da7222f2c75ed24764d9f5e');
INSERT INTO "journal" VALUES(13,'2026-11-25T11:21:18.625205+00:00','north','counted',4,1,NULL,NULL,NULL,-1,0,0,'{"counted":4,"record":5}',NULL,13,'8a410f10bacdf476c5bb71e467c21a2150dc77c4c728f7540bb46edc8d281f58');
INSERT INTO "journal" VALUES(14,'2026-11-25T11:21:18.657835+00:00','north','measured',NULL,1,NULL,NULL,NULL,0,0,0,'{"rows":[1],"values":{"actuator":"roller"}}',NULL,14,'f9e2096b0161026876fc87299b57cafa3dc395bbe85f58597545466ecb8a4145');
INSERT INTO "journal" VALUES(15,'2026-11-25T11:21:18.693404+00:00','north','xref-added',NULL,NULL,NULL,NULL,NULL,0,0,0,'{"edges":[1],"kind":"added"}',NULL,15,'eb6d08392ea1d3fa004f4927caa94d9032192a664c794a029e9c83aef0d3d887');
INSERT INTO "journal" VALUES(16,'2026-11-25T11:21:18.713490+00:00','north','moved',2,2,NULL,NULL,NULL,0,0,0,'{"from":"A3-08","to":"B1"}',NULL,16,'29b7c39baf1a686542d998661ffca06da57a3cd8e2e750a45ebb5e6e3cdb035a');
INSERT INTO "journal" VALUES(17,'2026-11-25T11:21:18.753746+00:00','north','undone-moved',2,2,NULL,NULL,NULL,0,0,0,'{"to":"A3-08"}',16,17,'842a2383958f21e6aa6614f51c1e9cf2a9298fd8ee3fbdcb4234374a1ed04420');
CREATE TABLE loaded_file (
	digest VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	rows INTEGER NOT NULL, 
	PRIMARY KEY (digest)
);
CREATE TABLE lot (
	id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	on_hand INTEGER NOT NULL, 
	held INTEGER NOT NULL, 
	state VARCHAR NOT NULL, 
	bin VARCHAR, 
	origin VARCHAR NOT NULL, 
	source_unit_id INTEGER, 
	history VARCHAR, 
	price_cents INTEGER, 
	supplier_no VARCHAR, 
	note VARCHAR, 
	logged_at VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	CONSTRAINT ck_lot_on_hand CHECK (on_hand >= 0), 
	CONSTRAINT ck_lot_held CHECK (held >= 0 AND held <= on_hand), 
	CONSTRAINT ck_lot_origin CHECK (origin IN ('salvaged', 'new')), 
	FOREIGN KEY(part_id) REFERENCES part_type (id), 
	FOREIGN KEY(bin) REFERENCES bin (code), 
	FOREIGN KEY(source_unit_id) REFERENCES source_unit (id)
);
INSERT INTO "lot" VALUES(1,1,8,1,'clicks','A3-07','new',NULL,NULL,450,'0815',NULL,'2026-11-25T11:21:18.311899+00:00');
INSERT INTO "lot" VALUES(2,2,2,0,'clicks','A3-08','salvaged',1,NULL,NULL,NULL,NULL,'2026-11-25T11:21:18.377021+00:00');
INSERT INTO "lot" VALUES(3,3,0,0,'untested','C1-01','salvaged',1,NULL,NULL,NULL,NULL,'2026-11-25T11:21:18.377021+00:00');
INSERT INTO "lot" VALUES(4,1,4,0,'clicks','A3-07','new',NULL,NULL,NULL,NULL,NULL,'2026-11-25T11:21:18.398664+00:00');
CREATE TABLE measured (
	id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	bench VARCHAR NOT NULL, 
	at VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(part_id) REFERENCES part_type (id)
);
INSERT INTO "measured" VALUES(1,1,'actuator','"roller"','north','2026-11-25T11:21:18.657295+00:00');
CREATE TABLE part_type (
	id INTEGER NOT NULL, 
	family VARCHAR NOT NULL, 
	maker VARCHAR, 
	type_code VARCHAR, 
	marking VARCHAR NOT NULL, 
	description VARCHAR, 
	ratings VARCHAR NOT NULL, 
	code_key VARCHAR, 
	marking_key VARCHAR, 
	keep_at_least INTEGER, 
	merged_into INTEGER, 
	note VARCHAR, 
	created_at VARCHAR NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(merged_into) REFERENCES part_type (id)
);
INSERT INTO "part_type" VALUES(1,'switch','Brenka',NULL,'EX-1 16A 250V',NULL,'{"resistive_a": 16, "volts_ac": [250]}',NULL,'EX116A250V',NULL,NULL,NULL,'2026-11-25T11:21:18.310918+00:00');
INSERT INTO "part_type" VALUES(2,'switch',NULL,NULL,'16(4)A 250V~ T85 5E4',NULL,'{"ambient_min_c": 0, "ambient_max_c": 85, "endurance_cycles": 50000, "resistive_a": 16, "motor_a": 4, "volts_ac": [250]}',NULL,'164A250VT855E4',NULL,NULL,NULL,'2026-11-25T11:21:18.367988+00:00');
INSERT INTO "part_type" VALUES(3,'hv_capacitor',NULL,NULL,'2100V 1µF',NULL,'{"voltage_v": 2100, "capacitance_uf": 1}',NULL,'2100V1F',NULL,NULL,NULL,'2026-11-25T11:21:18.367988+00:00');
INSERT INTO "part_type" VALUES(4,'switch','Brenka','EX-1','EX-1 16A 250V',NULL,'{"resistive_a": 16, "volts_ac": [250]}','EX1','EX116A250V',NULL,1,NULL,'2026-11-25T11:21:18.398176+00:00');
CREATE TABLE rating (
	id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	name VARCHAR NOT NULL, 
	number FLOAT, 
	word VARCHAR, 
	slot INTEGER NOT NULL, 
	PRIMARY KEY (id), 
	FOREIGN KEY(part_id) REFERENCES part_type (id)
);
INSERT INTO "rating" VALUES(3,2,'ambient_min_c',0.0,NULL,0);
INSERT INTO "rating" VALUES(4,2,'ambient_max_c',85.0,NULL,0);
INSERT INTO "rating" VALUES(5,2,'endurance_cycles',50000.0,NULL,0);
INSERT INTO "rating" VALUES(6,2,'resistive_a',16.0,NULL,0);
INSERT INTO "rating" VALUES(7,2,'motor_a',4.0,NULL,0);
INSERT INTO "rating" VALUES(8,2,'volts_ac',250.0,NULL,0);
INSERT INTO "rating" VALUES(9,3,'voltage_v',2100.0,NULL,0);
INSERT INTO "rating" VALUES(10,3,'capacitance_uf',1.0,NULL,0);
INSERT INTO "rating" VALUES(11,1,'resistive_a',16.0,NULL,0);
INSERT INTO "rating" VALUES(12,1,'volts_ac',250.0,NULL,0);
INSERT INTO "rating" VALUES(13,1,'actuator',NULL,'roller',0);
CREATE TABLE search_part (
	text_id INTEGER NOT NULL, 
	part_id INTEGER NOT NULL, 
	PRIMARY KEY (text_id, part_id)
)
 WITHOUT ROWID

;
INSERT INTO "search_part" VALUES(3,0);
INSERT INTO "search_part" VALUES(4,0);
INSERT INTO "search_part" VALUES(4,1);
INSERT INTO "search_part" VALUES(5,1);
INSERT INTO "search_part" VALUES(6,1);
INSERT INTO "search_part" VALUES(1,2);
INSERT INTO "search_part" VALUES(2,3);
CREATE TABLE search_seed (
	seed INTEGER NOT NULL, 
	"key" VARCHAR NOT NULL, 
	text_id INTEGER NOT NULL, 
	PRIMARY KEY (seed, "key", text_id)
)
 WITHOUT ROWID

;
INSERT INTO "search_seed" VALUES(0,'164A250VT855E4',1);
INSERT INTO "search_seed" VALUES(0,'2100V1F',2);
INSERT INTO "search_seed" VALUES(0,'EX0',3);
INSERT INTO "search_seed" VALUES(0,'EX1',4);
INSERT INTO "search_seed" VALUES(0,'EX1010',5);
INSERT INTO "search_seed" VALUES(0,'EX116A250V',6);
INSERT INTO "search_seed" VALUES(1,'0101XE',5);
INSERT INTO "search_seed" VALUES(1,'0XE',3);
INSERT INTO "search_seed" VALUES(1,'1XE',4);
INSERT INTO "search_seed" VALUES(1,'4E558TV052A461',1);
INSERT INTO "search_seed" VALUES(1,'F1V0012',2);
INSERT INTO "search_seed" VALUES(1,'V052A611XE',6);
INSERT INTO "search_seed" VALUES(2,'164A',1);
INSERT INTO "search_seed" VALUES(2,'2100V',2);
INSERT INTO "search_seed" VALUES(2,'250V',1);
INSERT INTO "search_seed" VALUES(2,'250V',6);
INSERT INTO "search_seed" VALUES(3,'EX0',3);
INSERT INTO "search_seed" VALUES(19,'EX1',4);
INSERT INTO "search_seed" VALUES(227,'EX0',3);
INSERT INTO "search_seed" VALUES(227,'EX1',4);
INSERT INTO "search_seed" VALUES(531,'EX0',3);
INSERT INTO "search_seed" VALUES(531,'EX1',4);
INSERT INTO "search_seed" VALUES(8067,'EX0',3);
INSERT INTO "search_seed" VALUES(8083,'EX1',4);
INSERT INTO "search_seed" VALUES(8595,'EX0',3);
INSERT INTO "search_seed" VALUES(8595,'EX1',4);
INSERT INTO "search_seed" VALUES(17882,'2100V1F',2);
INSERT INTO "search_seed" VALUES(19011,'EX0',3);
INSERT INTO "search_seed" VALUES(19027,'EX1',4);
INSERT INTO "search_seed" VALUES(309315,'EX0',3);
INSERT INTO "search_seed" VALUES(309331,'EX1',4);
INSERT INTO "search_seed" VALUES(747075,'EX1010',5);
INSERT INTO "search_seed" VALUES(871415,'EX116A250V',6);
INSERT INTO "search_seed" VALUES(1531608,'2100V1F',2);
INSERT INTO "search_seed" VALUES(7523271,'164A250VT855E4',1);
INSERT INTO "search_seed" VALUES(10451523,'EX1010',5);
INSERT INTO "search_seed" VALUES(10471683,'EX1010',5);
INSERT INTO "search_seed" VALUES(10471699,'EX1010',5);
INSERT INTO "search_seed" VALUES(10472259,'EX1010',5);
INSERT INTO "search_seed" VALUES(11135235,'EX1010',5);
INSERT INTO "search_seed" VALUES(11135251,'EX1010',5);
INSERT INTO "search_seed" VALUES(11135811,'EX1010',5);
INSERT INTO "search_seed" VALUES(11135827,'EX1010',5);
INSERT INTO "search_seed" VALUES(24634947,'EX1010',5);
INSERT INTO "search_seed" VALUES(24655107,'EX1010',5);
INSERT INTO "search_seed" VALUES(24655123,'EX1010',5);
INSERT INTO "search_seed" VALUES(24655683,'EX1010',5);
INSERT INTO "search_seed" VALUES(31452613,'164A250VT855E4',1);
INSERT INTO "search_seed" VALUES(31561430,'EX116A250V',6);
INSERT INTO "search_seed" VALUES(270335734,'164A250VT855E4',1);
INSERT INTO "search_seed" VALUES(376981059,'EX1010',5);
INSERT INTO "search_seed" VALUES(400868931,'EX1010',5);
INSERT INTO "search_seed" VALUES(400889091,'EX1010',5);
INSERT INTO "search_seed" VALUES(400889107,'EX1010',5);
INSERT INTO "search_seed" VALUES(400889589,'EX116A250V',6);
INSERT INTO "search_seed" VALUES(400889667,'EX1010',5);
INSERT INTO "search_seed" VALUES(887584323,'EX1010',5);
INSERT INTO "search_seed" VALUES(968102451,'2100V1F',2);
INSERT INTO "search_seed" VALUES(1131792116,'164A250VT855E4',1);
INSERT INTO "search_seed" VALUES(1935561267,'2100V1F',2);
INSERT INTO "search_seed" VALUES(1961792307,'2100V1F',2);
INSERT INTO "search_seed" VALUES(1961809363,'2100V1F',2);
INSERT INTO "search_seed" VALUES(1961809587,'2100V1F',2);
INSERT INTO "search_seed" VALUES(1962435123,'2100V1F',2);
INSERT INTO "search_seed" VALUES(14432007747,'EX1010',5);
INSERT INTO "search_seed" VALUES(14432215764,'EX116A250V',6);
INSERT INTO "search_seed" VALUES(70625137203,'2100V1F',2);
CREATE TABLE search_text (
	id INTEGER NOT NULL, 
	text VARCHAR NOT NULL, 
	PRIMARY KEY (id)
);
INSERT INTO "search_text" VALUES(1,'16(4)A 250V~ T85 5E4');
INSERT INTO "search_text" VALUES(2,'2100V 1µF');
INSERT INTO "search_text" VALUES(3,'EX-0');
INSERT INTO "search_text" VALUES(4,'EX-1');
INSERT INTO "search_text" VALUES(5,'EX1-OLD');
INSERT INTO "search_text" VALUES(6,'EX-1 16A 250V');
CREATE TABLE setting (
	name VARCHAR NOT NULL, 
	value VARCHAR NOT NULL, 
	PRIMARY KEY (name)
);
CREATE TABLE source_unit (
	id INTEGER NOT NULL, 
	label VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	maker VARCHAR, 
	model VARCHAR, 
	model_key VARCHAR, 
	revision VARCHAR, 
	serial VARCHAR, 
	why_scrapped VARCHAR, 
	arrived VARCHAR, 
	in_yard BOOLEAN NOT NULL, 
	note VARCHAR, 
	PRIMARY KEY (id), 
	UNIQUE (label)
);
INSERT INTO "source_unit" VALUES(1,'U1','microwave oven','Brenka','BK-20M','BK20M','/01',NULL,NULL,NULL,1,NULL);
CREATE INDEX ix_edge_kind_place ON edge (kind, place);
CREATE INDEX ix_edge_to_key ON edge (to_key);
CREATE INDEX ix_edge_from_key ON edge (from_key);
CREATE INDEX ix_job_model_key ON job (model_key);
CREATE INDEX ix_part_type_family ON part_type (family);
CREATE INDEX ix_part_type_marking_key ON part_type (marking_key);
CREATE INDEX ix_part_type_code_key ON part_type (code_key);
CREATE INDEX ix_search_part_part_id ON search_part (part_id);
CREATE INDEX ix_source_unit_model_key ON source_unit (model_key);
CREATE INDEX ix_alias_code_key ON alias (code_key);
CREATE INDEX ix_alias_part_id ON alias (part_id);
CREATE INDEX ix_job_reading_job_id ON job_reading (job_id);
CREATE INDEX ix_lot_part_id ON lot (part_id);
CREATE INDEX ix_lot_source_unit_id ON lot (source_unit_id);
CREATE INDEX ix_lot_bin ON lot (bin);
CREATE INDEX ix_measured_part_id ON measured (part_id);
CREATE INDEX ix_rating_part_id ON rating (part_id);
CREATE INDEX ix_rating_name_word ON rating (name, word, part_id);
CREATE INDEX ix_rating_name_number ON rating (name, number, part_id);
CREATE INDEX ix_bench_test_lot_id ON bench_test (lot_id);
CREATE INDEX ix_journal_kind_at ON journal (kind, at);
CREATE INDEX ix_journal_part_kind_at ON journal (part_id, kind, at);
CREATE INDEX ix_journal_lot_id ON journal (lot_id);
CREATE INDEX ix_journal_act ON journal (act);
CREATE INDEX ix_journal_job_id ON journal (job_id);
CREATE INDEX ix_journal_undoes ON journal (undoes);
CREATE INDEX ix_bench_reading_test_id ON bench_reading (test_id);
CREATE TRIGGER journal_keeps_its_rows BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_keeps_its_words BEFORE UPDATE ON journal BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
COMMIT;
