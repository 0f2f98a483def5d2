### Sätze, die in Rust gemacht werden. Längen, Gewichte, Tage und Zahlen kommen fertig geschrieben.

## Tage und Zahlen

between_days = zwischen { $from } und { $to }
spoken_today = heute
spoken_yesterday = gestern
spoken_tomorrow = morgen
percentage = { $figure }{ "\u00A0" }%
percentage_of = { $figure }{ "\u00A0" }%
chance_above = mehr als { $share }
chance_below = weniger als { $share }
per_10_cm = { $figure } auf 10{ "\u00A0" }cm
per_inch = { $figure } pro Zoll
picks_per_10_cm = Schüsse auf 10{ "\u00A0" }cm
picks_per_inch = Schüsse pro Zoll
approximately = etwa { $figure }
span_of_figures = { $low } bis { $high }
pieces_of_length = { $count ->
    [one] { $count } Stück von { $size }
   *[other] { $count } Stücke von { $size }
}

## Reicht die Kette?

warp_cut_off = Die Kette ist abgeschnitten.
warp_wound_unknown = Die Länge der Kette ist nicht bekannt.
warp_wound_unknown_remedy = Gib sie unter „Kette ändern“ an; geschätzt genügt.
woven_unknown = Wie viel gewebt ist, ist noch nicht bekannt.
woven_unknown_remedy = Miss einmal nach, oder gib die Schussdichte an.
cannot_calculate = Das lässt sich noch nicht berechnen.
because = Der Grund: { $error }.
warp_was_enough = Die Kette hat gereicht, mit etwa { $over } Gewebe als Reserve.
warp_was_just_enough = Die Kette hat gerade gereicht.
warp_enough = Die Kette reicht, und etwa { $over } Gewebe bleiben als Reserve.
warp_just_enough = Die Kette reicht gerade.
warp_tight_over = Knapp: vielleicht { $over } Gewebe als Reserve.
warp_tight_none = Knapp: Die Kette reicht gerade, ohne Reserve.
warp_tight_missing = Knapp: Vielleicht fehlen { $missing } Gewebe.
warp_not_enough = Die Kette reicht nicht: Etwa { $missing } Gewebe fehlen.
warp_not_quite_enough = Die Kette reicht nicht ganz.
warp_probably_not_enough = Die Kette reicht wohl nicht: Etwa { $missing } Gewebe fehlen.
warp_probably_not_quite_enough = Die Kette reicht wohl nicht ganz.
cloth_possible = Noch { $possible } Gewebe möglich.
cloth_possible_remedy = Gib die gewünschte Länge an, um zu sehen, ob das reicht.
to_weave_and_possible = Noch zu weben: { $to_weave }. Noch möglich: { $possible }.
warp_chance = Reicht mit { $chance } Wahrscheinlichkeit.
relaxation_from_pairs = { $pairs ->
    [one] Ohne Spannung verliert dieses Gewebe { $percent }{ "\u00A0" }% seiner Länge: auf dieser Kette einmal gespannt und entspannt gemessen.
   *[other] Ohne Spannung verliert dieses Gewebe { $percent }{ "\u00A0" }% seiner Länge: auf dieser Kette { $pairs }-mal gespannt und entspannt gemessen.
}
relaxation_from_warps = { $warps ->
    [one] Ohne Spannung verliert dieses Gewebe { $percent }{ "\u00A0" }% seiner Länge, wie deine frühere Kette.
   *[other] Ohne Spannung verliert dieses Gewebe { $percent }{ "\u00A0" }% seiner Länge, wie { $warps } deiner früheren Ketten.
}
relaxation_assumed = Angenommen wird, dass dieses Gewebe ohne Spannung { $percent }{ "\u00A0" }% seiner Länge verliert, in vier von fünf Fällen zwischen { $least } und { $most }{ "\u00A0" }%: eine Einschätzung aus wenigen berichteten Fällen, ohne Quelle. Miss dasselbe Gewebe gespannt und entspannt, um es zu wissen.
off_loom_needs = { $off_loom } vom Webrahmen genommen brauchen { $under_tension } unter Spannung.
fibre_loses = Insgesamt { $to_weave } zu weben: Nach Faser und Ausrüstung verliert das Gewebe etwa { $relaxed }{ "\u00A0" }% ohne Spannung und dann { $usual }{ "\u00A0" }% in der Wäsche, nach Berichten anderer zwischen { $least } und { $most }{ "\u00A0" }%. Deine eigenen Ketten sagen mehr, sobald sie gemessen sind.
reading_beyond_warp = Das Maßband zeigte { $read }, aber nur { $wound } Kette wurden geschärt. Die Messung bleibt erhalten und wird nicht verwendet; war es ein Versehen?
take_up_beyond_cloth = Geschärte Kette, Anfang und Kettreste lassen { $per_100 } Kette für 100 Gewebe, so viel arbeitet kein Gewebe ein: Daraus wird nichts gelernt. Fehlt eine der Längen, oder ist sie falsch abgelesen?
yarn_reaches_one_time_in_two = Für { $planned } reicht das Garn nur in einem von zwei Fällen. Für { $nine_in_ten } reicht es in neun von zehn.
size_finished = { $length } fertig
size_off_loom = { $length } vom Webrahmen genommen
size_on_loom = { $length } auf dem Webrahmen
enough_for_piece = Mit { $chance } Wahrscheinlichkeit reicht es für ein Stück von { $size }.
enough_for_each_piece = Mit { $chance } Wahrscheinlichkeit reicht es für Stücke von je { $size }.
enough_for_last_piece = Mit { $chance } Wahrscheinlichkeit reicht es für ein letztes Stück von { $size }.
enough_for_pieces_left = { $count ->
    [one] Mit { $chance } Wahrscheinlichkeit reicht es für { $size } bei dem Stück, das noch zu weben ist.
   *[other] Mit { $chance } Wahrscheinlichkeit reicht es für je { $size } bei den { $count } Stücken, die noch zu weben sind.
}
enough_to_end_of_piece = Mit { $chance } Wahrscheinlichkeit reicht es bis zum Ende von Stück { $piece }.
enough_up_to_piece = Mit { $chance } Wahrscheinlichkeit reicht es für { $size } bei Stück { $piece }.
enough_up_to_piece_only = Mit { $chance } Wahrscheinlichkeit reicht es für { $size } bei Stück { $piece } und kein weiteres Stück.
warp_left_sum = { $terms ->
    [both] { $wound } geschärt − { $waste } Kettabfall − { $fringe } Fransen − { $gaps } zwischen den Stücken − { $in_cloth } im Gewebe ({ $woven } gewebt × { $factor }) = { $left } Kette übrig.
    [fringe] { $wound } geschärt − { $waste } Kettabfall − { $fringe } Fransen − { $in_cloth } im Gewebe ({ $woven } gewebt × { $factor }) = { $left } Kette übrig.
    [gaps] { $wound } geschärt − { $waste } Kettabfall − { $gaps } zwischen den Stücken − { $in_cloth } im Gewebe ({ $woven } gewebt × { $factor }) = { $left } Kette übrig.
   *[none] { $wound } geschärt − { $waste } Kettabfall − { $in_cloth } im Gewebe ({ $woven } gewebt × { $factor }) = { $left } Kette übrig.
}
cloth_from_warp_left = Das ergibt { $cloth } Gewebe: 100 Gewebe brauchen { $per_100 } Kette.
span_wider_than_chance = Die Spanne ist weit, weil die gewebte Länge nur auf { $give_or_take } genau bekannt ist. Die Wahrscheinlichkeit senkt das nicht: Ist schon mehr gewebt, bleibt weniger zu weben.
warp_per_100_from_mark = Eine Kettmarke bei { $along } kam nach { $woven } Gewebe an die Anschlagkante. Daraus folgt die Einarbeitung.
warp_per_100_from_mark_not_given = Eine Kettmarke bei { $along } kam nach { $woven } Gewebe an die Anschlagkante. Daraus folgt die Einarbeitung, nicht aus den angegebenen { $given }.
take_up_assumed = Es ist keine Einarbeitung angegeben, deshalb wird ein Zehntel angenommen (Faustregel). Die Spanne ist dadurch weiter.
waste_assumed = Es ist kein Kettabfall angegeben, deshalb werden { $least } bis { $most } angenommen, wie mit dem Webkamm üblich (Faustregel).
last_shed = Das letzte brauchbare Fach endet ein Stück vor dem Webkamm; rechne eine Handbreit dafür.

## Die Antworten auf einen Blick
glance_woven = { $woven } von { $wanted }
glance_to_weave = { $picks ->
    [one] Noch { $to_weave }, etwa { $picks } Schuss.
   *[other] Noch { $to_weave }, etwa { $picks } Schüsse.
  }
glance_day = { $day }
glance_gift = Mit { $chance } Wahrscheinlichkeit bis zum Geschenktag, { $day }.
glance_span = Mit { $chance } Wahrscheinlichkeit zwischen { $from } und { $to }.

## Reicht der Schuss?

weft_not_needed = Es wird kein Schussgarn mehr gebraucht.
weft_missing = Es ist kein Schussgarn angegeben.
weft_missing_remedy = Gib Gewicht oder Länge unter „Kette ändern“ an.
weft_reach_unknown = Wie weit das Schussgarn reicht, ist noch nicht bekannt.
weft_reach_unknown_weigh = Wiege den Rest, sobald ein Stück gewebt ist; das Übrige folgt daraus.
weft_reach_unknown_enter = Gib Gewicht oder Länge an und die Breite im Webkamm.
weft_needed = Etwa { $length } Garn werden noch gebraucht.
weft_needed_without_joins = Etwa { $length } Garn werden noch gebraucht, ohne Ansatzstellen und Hohlsaum.
weft_was_enough = Das Schussgarn hat gereicht.
weft_enough = Das Schussgarn reicht, für etwa { $over } Gewebe mehr als nötig.
weft_just_enough = Das Schussgarn reicht gerade.
weft_tight_over = Knapp: vielleicht Schussgarn für { $over } Gewebe als Reserve.
weft_tight_none = Knapp: Das Schussgarn reicht gerade, ohne Reserve.
weft_tight_missing = Knapp: Das Schussgarn geht vielleicht { $missing } vor dem Ende aus.
weft_not_enough = Das Schussgarn reicht nicht: Es geht etwa { $missing } vor dem Ende aus.
weft_not_quite_enough = Das Schussgarn reicht nicht ganz: Es geht kurz vor dem Ende aus.
weft_probably_not_enough = Das Schussgarn reicht wohl nicht: Es geht vielleicht etwa { $missing } vor dem Ende aus.
weft_probably_not_quite_enough = Das Schussgarn reicht wohl nicht ganz: Es geht vielleicht kurz vor dem Ende aus.
weft_possible = Schussgarn für weitere { $possible }.
to_weave_and_weft_possible = Noch zu weben: { $to_weave }. Schussgarn für: { $possible }.
weft_chance = Reicht mit { $chance } Wahrscheinlichkeit.
yarn_not_counted = { $yarn } ist nicht mitgerechnet: Wie weit es reicht, ist nicht bekannt. Wiege es, oder gib seine Länge an.
yarn_half_gone = Etwa die Hälfte von { $yarn } ist verbraucht, nach { $woven } Gewebe. Sollen beide Enden gleich werden, spiegle die Folge ab hier.
yarn_half_gone_now = Etwa die Hälfte von { $yarn } ist verbraucht. Sollen beide Enden gleich werden, spiegle die Folge ab hier.
amount_left = { $amount } übrig
yarns_one_after_another = Die Garne werden nacheinander verwebt, jedes nach dem, was bisher damit gewebt wurde.
yarn_and_reason = { $yarn }: { $reason }
yarn_possible = { $yarn }: reicht für weitere { $size }.
yarn_known_by_scale = Anfangs { $first }, zuletzt gewogen { $last }: { $used } für { $woven } Gewebe. Eine Küchenwaage ist auf etwa ein Gramm genau, ein kleiner Unterschied sagt also wenig.
yarn_known_by_length = { $since ->
    [measured] { $from } bei der letzten Messung, seitdem etwa { $used } verbraucht: Ein Schuss braucht { $pick }. Den Rest zu wiegen wäre genauer.
    [measured_unused] { $from } bei der letzten Messung, seitdem nichts verbraucht: Ein Schuss braucht { $pick }. Den Rest zu wiegen wäre genauer.
    [start_unused] { $from } am Anfang, seitdem nichts verbraucht: Ein Schuss braucht { $pick }. Den Rest zu wiegen wäre genauer.
   *[start] { $from } am Anfang, seitdem etwa { $used } verbraucht: Ein Schuss braucht { $pick }. Den Rest zu wiegen wäre genauer.
}
yarn_known_as_other = Nur sein Gewicht ist bekannt; angenommen ist, dass es nach Gewicht so weit reicht wie { $other }, mit einem Fünftel Spielraum.
yarn_known_by_label = Die Länge des Garns folgt aus dem, was es anfangs maß und wog.

## Fortschritt

progress_nothing_woven = Noch nichts gewebt.
cloth_to_go = noch { $length }
progress_nothing_woven_of = Noch nichts gewebt; { $wanted } zu weben.
progress_picks_only = { $picks ->
    [one] { $picks } Schuss gewebt. Miss einmal nach, um zu sehen, wie lang das ist.
   *[other] { $picks } Schüsse gewebt. Miss einmal nach, um zu sehen, wie lang das ist.
}
progress_all_woven = Alle { $wanted } gewebt.
progress_ready_to_cut = Alle { $wanted } gewebt: fertig zum Abschneiden.
progress_woven_of = { $woven } von { $wanted } gewebt.
progress_about_woven_of = Etwa { $woven } von { $wanted } gewebt.
progress_woven = { $woven } gewebt.
progress_about_woven = Etwa { $woven } gewebt.
progress_measure_before_cutting = Das folgt allein aus den Schüssen, auf { $give_or_take } genau: Miss nach, bevor du abschneidest.
progress_piece = Stück { $piece } von { $pieces }: { $woven } von { $whole }.
progress_picks = { $picks ->
    [one] Bisher { $picks } Schuss.
   *[other] Bisher { $picks } Schüsse.
}
progress_place = { SENTENCE($place) }
progress_place_and_piece = { CAPITAL($place) }, { $piece }.
progress_pick_begun = Beim letzten Mal ({ $day }) hast du mitten im Schuss aufgehört: Er ist noch nicht angeschlagen.
progress_pick_begun_in = Beim letzten Mal ({ $day }) hast du mitten im Schuss aufgehört: Er ist noch nicht angeschlagen ({ $next }).
progress_last_sitting = Letzte Websitzung: { $day }.
progress_rate_measured = An diesem Stoff gemessen: { $density }. Das Maßband gilt zuerst, dazwischen und danach gelten die Schüsse.
progress_rate_planned = { $density } wie geplant: An diesem Stoff ist noch nichts gemessen.
progress_estimated = Einige Werte sind geschätzt, deshalb ist die Länge weniger sicher.
progress_within = Gewebte Länge auf { $give_or_take } genau bekannt (zu { $chance } wahrscheinlich).
progress_finished_sum = { $finished } fertig brauchen { $on_loom } auf dem Webrahmen: { $whole } ÷ (1 − { $share }).
progress_no_loss = Kein Einlaufen eingetragen, deshalb wird ohne gerechnet. Die meisten Stoffe verlieren beim Abnehmen und in der Wäsche einige Prozent.
progress_time = { $sittings ->
    [one] Am Webrahmen: { $time } in { $sittings } Websitzung.
   *[other] Am Webrahmen: { $time } in { $sittings } Websitzungen.
}
notice_of_day = { $day }: { $notice }
notice_apart = Das Maßband zeigt { $by_tape }, die Schüsse ergeben { $by_counts }. Es gilt das Maßband; wurde an der richtigen Markierung angelegt?
notice_shrunk = Das Maßband zeigte erst { $before } und jetzt { $now }, obwohl nichts zurückgewebt wurde. Es gilt die spätere Messung.
notice_uncounted = { $sittings ->
    [one] Eine Websitzung seit der letzten Messung hat weder Schüsse noch eine Länge, ihr Stoff fehlt hier.
   *[other] { $sittings } Websitzungen seit der letzten Messung haben weder Schüsse noch eine Länge, ihr Stoff fehlt hier.
}
notice_no_mark = Eine Länge wurde ab der letzten Markierung gemessen, aber davor ist keine gesetzt; sie gilt ab dem Anfang.
notice_beat_changes = { $change ->
    [loosening] Dein Anschlag wird lockerer: anfangs { $from }, jetzt { $density }.
   *[tightening] Dein Anschlag wird fester: anfangs { $from }, jetzt { $density }.
}
notice_beat_jumped = Das letzte Stück hat { $density }, davor waren es { $before }. Achte auf den Anschlag.
density_in_picks = { $figure } { $unit }
tape_mark_at = Die Markierung ist jetzt an der Anschlagkante, { $at } vom Anfang. Miss das nächste Mal von ihr aus.
tape_warp_mark = Die Kettmarke bei { $along } ist nach { $woven } Stoff an der Anschlagkante: 100 Stoff brauchen { $per_100 } Kette. Ab jetzt gilt das statt { $before }.
tape_near_interval = Der Unterschied liegt nahe bei den { $between } von einer Markierung zur nächsten: Hast du an einer anderen Markierung angelegt?
tape_alone = { $tape } nach dem Maßband; Schüsse zum Vergleichen gibt es nicht.
tape_agrees = { $tape } nach dem Maßband, und die Schüsse stimmen überein.
tape_used = { $tape } nach dem Maßband, { $counts } nach den Schüssen. Es gilt das Maßband: Schüsse ergeben eine Länge nur über den Anschlag, und der schwankt.
tape_rate = Ab jetzt gerechnet mit { $density }.

## Websitzungen und Messungen

availability_entered = Wie eingetragen: { $parts }.
availability_days_a_week = Webtage pro Woche: etwa { $days }
availability_minutes_a_day = Zeit am Webrahmen pro Tag: etwa { $time }
availability_weekdays = Webtage: { $days }
availability_away_on = fort am { $day }
availability_away = fort vom { $from } bis zum { $until }
availability_every_day = jeden Tag bis zum { $until }
sitting_since = seit { $time }
learned_behind = { $warps ->
    [one] aus { $warps } Kette
   *[other] aus { $warps } Ketten
}
learned_behind_alike = { $warps ->
    [one] aus { $warps } Kette, { $alike ->
        [0] die nicht wie diese ist
       *[other] davon { $alike } wie diese
    }
   *[other] aus { $warps } Ketten, { $alike ->
        [0] keine davon wie diese
       *[other] davon { $alike } wie diese
    }
}
learned_take_up = Einarbeitung
learned_take_up_is = 100{ "\u00A0" }cm Stoff brauchen { $per_100 }{ "\u00A0" }cm Kette, auf { $deviation } genau
learned_length_lost = Längenverlust
learned_length_lost_is = { $percent } der Länge gehen vom Webrahmen bis zum fertigen Stück verloren, auf { $deviation } genau
learned_width_lost = Breitenverlust
learned_width_lost_is = { $percent } der Breite gehen vom Webkamm bis zum fertigen Stück verloren, auf { $deviation } genau
learned_waste = Kettabfall
learned_waste_is = { $waste } Kettabfall, auf { $deviation } genau
learned_weft = Schussgarn
learned_weft_is = { $mass } Schussgarn je gewebten Meter
learned_pace = Tempo
learned_pace_is = { $picks } Schüsse pro Stunde am Webrahmen
yarn_without_name = das Schussgarn
yarn_saved = { CAPITAL($yarn) }: gespeichert. Wie weit es reicht, zeigt das nächste Wiegen nach einigem Weben.
yarn_in_use_from_here = { CAPITAL($yarn) }: ab hier in Gebrauch.
yarn_at_first = { $amounts } am Anfang
yarn_at_last_look = { $left } beim letzten Wiegen oder Messen
yarn_woven = { $woven } damit gewebt
yarn_enough_for = reicht noch für etwa { $size }
moment_tape = { $from ->
    [mark] { $length } ab der Markierung
    [mark_relaxed] { $length } ab der Markierung, entspannt
    [start_relaxed] { $length } ab dem Anfang, entspannt
   *[start] { $length } ab dem Anfang
}
moment_mark_moved = Markierung an die Anschlagkante gesetzt
moment_warp_mark = Kettmarke bei { $along } an der Anschlagkante
moment_weighed = { CAPITAL($yarn) }: { $left }
moment_yarn_in_use = { CAPITAL($yarn) }: in Gebrauch
moment_place = { $part ->
    [opening] Stelle gesetzt: Schuss { $pick } in der Anfangsbordüre
    [balance] Stelle gesetzt: Schuss { $pick } in den Ausgleichsschüssen
    [closing] Stelle gesetzt: Schuss { $pick } in der Schlussbordüre
   *[repeat] Stelle gesetzt: Schuss { $pick } in Rapport { $repeat }
}
moment_place_in_piece = Stück { $piece }: { $place }

## Schussfolge

## Die laufende Sitzung

## Fertigstellung

## Tempo

## Planen

## Abgewebt

## Webkarte

## Bilder und Diagramme

## Tabellen

## Der Ordner

## Widersprüche und Rückgängig

## Vorsicht

stretch_due = { $minutes } Minuten ohne Pause. Steh auf, wenn du die Kette das nächste Mal weiterdrehst, und lockere Schultern und Hände. Wenn etwas dauernd wehtut, geh zur Ärztin oder zum Arzt.
stretch_at_an_advance = { $minutes } Minuten ohne Pause: Steh beim Weiterdrehen der Kette auf und lockere Schultern und Hände.

## Befehlszeile

## Fehler

## Warnhinweise, und woher jeder ist

caution_child_neck = Für ein kleines Kind: Was um den Hals liegt, kann strangulieren. Keine Kordeln, Bänder oder langen Fransen am Kopf; ein geschlossener Loop ist sicherer als ein Schal, und beides gehört nicht in den Schlaf oder zum Spielen.
caution_child_neck_source = EN 14682 erlaubt bis 7 Jahre keine Kordeln an Kapuze und Hals; Schals erfasst sie nicht, verlangt aber, sie nach denselben Grundsätzen zu beurteilen
caution_child_small_parts = Für ein kleines Kind: Knöpfe, Perlen und lose Enden gehen ab und können verschluckt werden. Lass sie weg, vernähe Enden und zieh kräftig an allem, was angenäht ist.
caution_child_small_parts_source = nach EN 71-1, Kleinteile an Spielzeug; aus dem Gedächtnis
caution_posture = Weben belastet Schultern, Nacken und Handgelenke. Sitz so, dass die Ellbogen etwas über dem Brustbaum sind, wechsle die Wurfhand und steh auf, bevor etwas wehtut.
caution_posture_source = übliche Praxis, ohne Quelle
caution_dust = Garn staubt, am meisten dort, wo der Webkamm reibt. Lüfte, kehre feucht und trag eine Maske, wenn du hustest oder pfeifend atmest.
caution_dust_source = übliche Praxis, ohne Quelle
caution_hot_water = Heißes Wasser und Dampf verbrühen, und nasses Gewebe ist schwer. Probiere die Hitze an einer Probe aus und halte Kinder und Tiere fern.
caution_hot_water_source = übliche Praxis, ohne Quelle
caution_dyes = Farben können bei der ersten Wäsche ausbluten: Wasche getrennt. Trag beim Färben Handschuhe, atme keine Pulver ein, halte Kochtöpfe getrennt und beachte das Etikett jeder Beize.
caution_dyes_source = übliche Praxis, wie in J. Dean, The Craft of Natural Dyeing
cautions_heading = Vorsicht
cautions_local_rules = Diese Hinweise ersetzen weder die Vorschriften an deinem Ort noch ärztlichen Rat.

### Die Oberfläche. Ein Argument, das unter Fällen wählt, ist eine Anzahl oder eines der Wörter in Klammern; $unit ist die Längeneinheit, in oder cm.

## Überall

product_name = Fellmark
screens = Ansichten
skip_to_content = Zum Inhalt springen
on_the_loom = Auf dem Webrahmen
plan = Planen
off_the_loom = Abgewebt
pace = Tempo
folder = Ordner
folder_state = Ordner:
undo = Rückgängig: { $action }
undone = Rückgängig gemacht.
sample_data = Beispieldaten
close_sample = Beispiel schließen
close = Schließen
back = Zurück
change = Ändern
change_named = Ändern: { $name }
remove = Entfernen
restore = Wiederherstellen
save = Speichern
saved = Gespeichert.
saved_to = Gespeichert unter { $path }.
stop = Anhalten
try_again = Noch einmal versuchen
got_it = Verstanden
why = Warum?
result = Ergebnis
estimates = Geschätzte Werte
note = Notiz
name = Name
unit_picks_per = { $unit ->
    [in] Schüsse pro Zoll
   *[cm] Schüsse auf 10{ "\u00A0" }cm
}
unit_ends_per = { $unit ->
    [in] Kettfäden pro Zoll
   *[cm] Kettfäden auf 10{ "\u00A0" }cm
}
trouble_unknown = Das hat nicht geklappt. Es wurde nichts geändert; bitte noch einmal versuchen.

## Erster Start

welcome_what = Fellmark zählt beim Weben die Schüsse mit. Es zeigt, wo du bist, ob Kette und Schussgarn reichen und wann das Stück fertig wird.
welcome_where = Es speichert einfache Dateien in einem Ordner deiner Wahl. Kein Konto; nichts wird verschickt.
welcome_device_hint = Daran erkennst du, welche Einträge von diesem Gerät sind. Wenn leer: { $name }.
welcome_choose_folder = Ordner wählen
welcome_type_path = Stattdessen den Pfad eingeben
welcome_path = Pfad des Ordners, etwa ~/Weben
welcome_use_folder = Diesen Ordner verwenden
welcome_create_folder = Diesen Ordner anlegen
welcome_open_sample = Beispiel öffnen
welcome_sample_hint = Ein Schal mit erfundenen Werten, zum Ausprobieren.

## Der Ordner wird gelesen

reading_started = Der Ordner wird gelesen. Das kann etwas dauern; du kannst es anhalten.
reading_list = Ordner wird gelesen: Dateien werden gesucht
reading_files = Ordner wird gelesen: { $done } von { $count } Dateien
reading_bar = Gelesene Dateien
reading_stopping = Hält an, sobald der Datenträger antwortet

## Auf dem Webrahmen

loom_start_weaving = Weben beginnen
loom_continue_weaving = Weiterweben
loom_stop_weaving = Weben beenden
loom_sitting_running = Eine Websitzung läuft { $since }.
loom_warps = Ketten
loom_state_on_the_loom = auf dem Webrahmen
loom_state_resting = zur Seite gelegt
loom_state_off_the_loom = abgewebt
loom_state_removed = entfernt
loom_conflicts = { $count ->
    [one] { $count } widersprüchlicher Eintrag
   *[other] { $count } widersprüchliche Einträge
}
loom_this_warp = Diese Kette
loom_add_past_sitting = Frühere Websitzung nachtragen
loom_change_warp = Kette ändern
loom_set_aside = Zur Seite legen
loom_bring_back = Zurück auf den Webrahmen
loom_cut_off = Abschneiden
loom_print = Drucken
loom_remove_warp = Diese Kette entfernen
loom_removed_note = Diese Kette wurde entfernt. Alle ihre Websitzungen sind noch gespeichert.
loom_take_care = Vorsicht
loom_nothing = Auf dem Webrahmen ist nichts.
loom_was_set_aside = Kette zur Seite gelegt.
loom_is_back = Die Kette ist auf dem Webrahmen.
loom_warp_removed = Kette entfernt.
loom_warp_restored = Kette wiederhergestellt.

## Die Antworten

answers = Überblick
answers_where = Wo bin ich?
answers_warp = Reicht die Kette?
answers_weft = Reicht das Schussgarn?
answers_when = Wann ist es fertig?
answers_well = Ja
answers_close = Knapp
answers_short = Zu wenig
answers_open = Noch offen

## Bilder der Kette und der Tage

picture_title = Die Kette im Maßstab
picture_arrows = Die Pfeiltasten führen von Teil zu Teil, Pos1 und Ende an die Enden.
picture_opens = Die Eingabetaste öffnet eine Websitzung.
picture_as_text = Als Text
picture_photos = Streifen mit Bild sind Websitzungen mit Foto.
picture_fell = Anschlagkante
picture_ticks = { $unit ->
    [in] Ein Strich alle 6{ "\u00A0" }Zoll Kette.
   *[cm] Ein Strich alle 10{ "\u00A0" }cm Kette.
}
days_title = Tag für Tag
days_whole = ganze Länge
days_legend = Linie: bisher gewebt. Schraffiert: zu 80{ "\u00A0" }% wahrscheinlich. Gestrichelt: ebenso oft früher wie später.
days_woven = Linie: bisher gewebt.

## Websitzungen

sittings_title = Websitzungen
sittings_none = Noch keine Websitzung.
sittings_show_all = Alle { $count } zeigen
sittings_correct = Berichtigen
sittings_add_photos = Fotos hinzufügen
sittings_photos = Fotos: { $count }
sittings_saved_on = Gespeichert auf { $device }.
sittings_contested = Auf einem Gerät entfernt und auf einem anderen geändert. Wähle unter „Widersprüchliche Einträge“.
sittings_removed = { $count ->
    [one] { $count } entfernte Websitzung
   *[other] { $count } entfernte Websitzungen
}
sittings_was_removed = Websitzung entfernt.
sittings_was_restored = Websitzung wiederhergestellt.

## Widersprüchliche Einträge

conflicts_title = Widersprüchliche Einträge
conflicts_hint = Zwei Geräte haben verschiedene Werte gespeichert. Wähle den richtigen; nichts geht verloren.
conflicts_in_use = gilt vorerst
conflicts_from = von { $device }
conflicts_settled = Widerspruch geklärt.

## Weben

tap_title = Weben
tap_surface = Einen Schuss zählen
tap_first = Mit dem ersten Schuss beginnt die Zeit.
tap_how = Für jeden Schuss irgendwo tippen oder eine beliebige Taste drücken.
tap_last = Letzter Schuss: { $pick }
tap_then = dann { $pick }
tap_picks = { $count ->
    [one] Schuss in dieser Sitzung
   *[other] Schüsse in dieser Sitzung
}
tap_on_this_warp = { $count } auf dieser Kette
tap_minutes = { $count ->
    [one] { $count } Minute
   *[other] { $count } Minuten
}
tap_minutes_paused = { $count ->
    [one] { $count } Minute, Zeit angehalten
   *[other] { $count } Minuten, Zeit angehalten
}
tap_minutes_held = { $count }{ "\u00A0" }min, Pause
tap_pause = Anhalten
tap_resume = Fortsetzen
tap_undo_pick = Schuss zurücknehmen
tap_not_beaten = Noch nicht angeschlagen
tap_not_beaten_sign = Noch nicht angeschlagen:
tap_advance = Kette weiterdrehen
tap_more = Mehr
tap_screen_may_turn_off = Der Bildschirm kann hier ausgehen; kein Schuss geht verloren.
tap_waiting = { $count ->
    [one] { $count } Schuss ist noch nicht gespeichert.
   *[other] { $count } Schüsse sind noch nicht gespeichert.
}
tap_save_now = Jetzt speichern
tap_place_set = Stelle gesetzt. Die Zahl der Schüsse bleibt gleich.

## Weben: Stelle, Tasten, Ton, Erinnerung

weaving_settings = Einstellungen zum Weben
weaving_settings_back = Zurück zum Weben
place_title = Stelle in der Schussfolge
place_hint = Wähle die Reihe, die als Nächstes kommt. Die Zahl der Schüsse bleibt gleich.
place_repeat = Rapport
place_repeat_hint = Der Rapport, in dem du bist; bei Ausgleich und Schlussbordüre die gewebten Rapporte.
place_piece = Stück
place_no_sequence = Diese Kette hat noch keine Schussfolge.
place_add_sequence = Schussfolge anlegen
place_now = nach der Zählung die nächste
keys_title = Tasten und Pedal
keys_any = Jede Taste zählt einen Schuss; die Rücktaste nimmt einen zurück.
keys_pick = Nur { $key } zählt einen Schuss.
keys_back = { $key } nimmt einen Schuss zurück.
keys_choose_pick = Taste oder Pedal für einen Schuss wählen
keys_choose_back = Taste zum Zurücknehmen wählen
keys_press = Jetzt die Taste oder das Pedal drücken
keys_any_again = Wieder jede Taste verwenden
keys_note = Mit Esc markierst du einen Schuss, der noch nicht angeschlagen ist. Die Tasten gelten nur auf diesem Gerät.
keys_space = Leertaste
sound_title = Ton
sound_on = Ein leises Ticken bei jedem Schuss
stretch_title = Erinnerung ans Dehnen
stretch_hint = Nach so langem Weben ohne Pause, auf allen Geräten mit diesem Ordner.
stretch_care = Steh auf, bevor etwas wehtut, wechsle die Wurfhand und lüfte: Garn staubt.
stretch_never = nie
stretch_minutes = { $count }{ "\u00A0" }min

## Messen und wiegen

measure_title = Messen oder wiegen
measure_lead = Trage ein, was du gemessen hast; den Rest lass leer.
measure_move_mark = Markierung an die Anschlagkante versetzen
measure_yarn_left = Restliches Garn
measure_yarn_hint = Nach Gewicht oder Länge: 42{ "\u00A0" }g, about 120{ "\u00A0" }m.
measure_on_shuttle = Auf dem Schiffchen gewogen, das leer { $weight } wiegt
measure_yarn_next = Garn ab hier
measure_yarn_same = wie bisher
measure_warp_mark = Eine Kettmarke ist an der Anschlagkante
measure_warp_mark_at = Abstand vom ersten Schuss, entlang der Kette
measure_warp_mark_hint = Ein Faden, beim Schären an einen Kettfaden gebunden. Er zeigt die wahre Einarbeitung.

## Schussgarne

yarns_title = Schussgarne
yarns_none = Noch kein Schussgarn.
yarns_add = Garn hinzufügen
yarns_new = Schussgarn hinzufügen
yarns_change = Schussgarn ändern
yarns_on_shuttle = auf dem Schiffchen
yarns_use = Ab hier verwenden
yarns_use_named = Ab hier verwenden: { $name }
yarns_in_use = Das Garn ist in Gebrauch.
yarns_saved = Garn gespeichert.
yarns_removed = Garn entfernt.
yarns_weight = Gewicht zu Beginn
yarns_weight_hint = Nur das Garn.
yarns_length = Länge zu Beginn
yarns_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd; about 240{ "\u00A0" }m, wenn du es nur ungefähr weißt.
yarns_shuttle = Gewicht des leeren Schiffchens
yarns_shuttle_hint = Oder der Spule. Es wird abgezogen, wenn du das Garn darauf wiegst.
yarns_left = { $percent }{ "\u00A0" }% übrig

## Andere Einträge, Fotos

records_title = Andere Einträge
records_removed = Eintrag entfernt.
photos_title = Fotos
photos_over_time = Fotos im Lauf der Zeit
photos_enlarge = Vergrößern: { $photo }
photos_close = Foto schließen
photos_remove = Dieses Foto entfernen
photos_removed = Foto entfernt.
photos_missing = Das Foto ist noch nicht angekommen.
photos_hint = Oder hierher ziehen oder einfügen.
photos_chosen = Foto { $name }
photos_leave_out = { $name } weglassen
photos_saving = Foto { $number } von { $count } wird gespeichert
photos_not_saved = { $count ->
    [one] { $count } Foto wurde nicht gespeichert.
   *[other] { $count } Fotos wurden nicht gespeichert.
}
photos_skip = Weglassen
photos_saved = { $count ->
    [one] Foto gespeichert.
   *[other] { $count } Fotos gespeichert.
}

## Eine Websitzung

sitting_save_title = Diese Websitzung speichern
sitting_correct = Websitzung berichtigen
sitting_lead = Trage ein, was du weißt: Minuten, Schüsse oder Länge dürfen leer bleiben.
sitting_day = Tag
sitting_started = Begonnen um
sitting_started_hint = Etwa 19:40.
sitting_minutes = Minuten
sitting_minutes_hint = 40 oder 1{ "\u00A0" }h 10
sitting_use_minutes = Ich habe ohne Zählen weitergewebt: { $minutes } Minuten übernehmen
sitting_picks = Schüsse
sitting_picks_hint = Negativ, wenn du mehr zurück- als vorwärtsgewebt hast.
sitting_length = Gewebte Länge
sitting_length_hint = Bis zur Anschlagkante.
sitting_from = Gemessen ab
sitting_from_start = dem ersten Schuss
sitting_from_mark = der letzten Markierung
sitting_tension = Die Kette war
sitting_tight = gespannt
sitting_relaxed = entspannt
sitting_measured = { $tension ->
    [relaxed] { $from ->
        [mark] Gemessen ab der letzten Markierung, Kette entspannt
       *[start] Gemessen ab dem ersten Schuss, Kette entspannt
    }
   *[tight] { $from ->
        [mark] Gemessen ab der letzten Markierung, Kette gespannt
       *[start] Gemessen ab dem ersten Schuss, Kette gespannt
    }
}
sitting_mark_set = Ich habe die Anschlagkante markiert
sitting_mark_hint = Stecke dort einen Faden oder ein Band fest, bevor du die Kette weiterdrehst: Der erste Schuss kommt auf den Warenbaum, und ab da misst du von der Markierung.
sitting_weft_left = Gewicht des restlichen Schussgarns
sitting_weft_left_hint = Nur das Garn, ohne Schiffchen oder Hülse.
sitting_not_beaten = Der letzte Schuss ist noch nicht angeschlagen
sitting_keep_weaving = Doch weiterweben
sitting_saved = Websitzung gespeichert.
sitting_corrected = Websitzung berichtigt.

## Eine Kette

warp_start = Kette beginnen
warp_start_lead = Ein Name und die Werte, die du kennst. Alles lässt sich später ändern.
warp_start_this = Diese Kette beginnen
warp_started = Kette begonnen.
warp_changed = Kette geändert.
warp_name_hint = Wie du sie nennst: „Grüner Läufer“.
warp_cloth = Kette und Gewebe
warp_wound = Kettlänge
warp_wound_hint = Wie geschärt, mit allen Knoten.
warp_waste = Kettabfall
warp_waste_hint = Vorn und hinten zusammen: was sich nicht verweben lässt.
warp_wanted = Gewünschte Länge
warp_wanted_hint = { $unit ->
    [in] Je Stück. Wenn sie verschieden sind: 70, 6, 6{ "\u00A0" }in.
   *[cm] Je Stück. Wenn sie verschieden sind: 180, 15, 15{ "\u00A0" }cm.
}
warp_wanted_state = Die gewünschte Länge gilt
warp_finished = fertig, nach dem Waschen
warp_relaxed = vom Webrahmen genommen
warp_under_tension = auf dem Webrahmen, gespannt
warp_picks = Schussdichte
warp_picks_hint = { $unit ->
    [in] Schüsse pro Zoll.
   *[cm] Schüsse auf 10{ "\u00A0" }cm.
}
warp_take_up = Einarbeitung
warp_take_up_before = 100{ "\u00A0" }{ $unit } gespanntes Gewebe brauchen
warp_take_up_after = { $unit } Kette
warp_take_up_hint = An einer Webprobe messen oder leer lassen.
warp_weft = Schuss
warp_reed_width = Breite im Webkamm
warp_yarn = Garn
warp_weft_allowance = Schusszugabe
warp_weft_allowance_hint = Zugabe zur Breite bei jedem Schuss. Oft 10.
warp_gift_day = Fertig bis
warp_gift_day_hint = Wenn das Stück an einem bestimmten Tag fertig sein muss.
warp_sequence = Schussfolge
warp_sequence_hint = Eine Reihe je Zeile: up (Kamm oben), down (Kamm unten), stick (Musterstab) oder up + stick. „stick“ allein heißt: Kamm in Ruhestellung, Stab hochkant. „3 x up“ sind drei Reihen. Bei einem anderen Webstuhl die Nummern der Fächer.
warp_opening = Anfangsbordüre
warp_repeat = Rapport
warp_balance = Ausgleichsschüsse
warp_closing = Schlussbordüre
warp_more_pieces = Stücke, Fransen, Einlaufen
warp_shrinkage = Einlaufen vom Webrahmen bis fertig
warp_pieces = Stücke auf dieser Kette
warp_pieces_hint = Wenn leer: eines, oder so viele wie gewünschte Längen.
warp_gap = Abstand zwischen Stücken
warp_gap_hint = Ohne ihre Fransen.
warp_fringe = Ungewebte Fransen an jedem Ende jedes Stücks
warp_fringe_from_waste = Die äußersten Fransen entstehen aus dem Kettabfall
warp_days = Tage und für wen
warp_started_on = Begonnen am
warp_days_a_week = Webtage pro Woche, ungefähr
warp_minutes_a_day = Minuten an so einem Tag, ungefähr
warp_weaving_days = Webtage
warp_weaving_days_hint = „Sat, Sun“ oder „weekends“. Wenn leer: wie deine Websitzungen zeigen.
warp_away_from = Nicht da ab
warp_away_until = Nicht da bis
warp_every_day_until = Weben an jedem Tag bis
warp_for_child = Für ein kleines Kind
warp_fibre = Faser
warp_fibre_unset = nicht angegeben
warp_fibre_cotton = Baumwolle
warp_fibre_linen = Leinen, Hanf
warp_fibre_cottolin = Cottolin
warp_fibre_wool = Wolle
warp_fibre_silk = Seide
warp_fibre_viscose = Viskose, Bambus
warp_fibre_acrylic = Acryl, Nylon
warp_finish = Ausrüstung
warp_finish_washed = gewaschen
warp_finish_fulled = gewalkt
warp_weave = Bindung
warp_weave_unset = nicht angegeben
warp_weave_plain = Leinwandbindung
warp_weave_twill = Köper 2/2
warp_weave_pick_up = mit Musterstab

## Die Schussfolge bearbeiten

sequence_examples = Mit einem Beispiel beginnen
sequence_example = Beginnen mit: { $name }
sequence_mirror = Anfangsbordüre spiegeln
sequence_stick = Schlitzfäden auf dem Musterstab
sequence_stick_up = oben
sequence_stick_down = unten dazwischen
sequence_stick_edge = unten an jedem Rand
sequence_sheds = Nummerierte Fächer: mehrere Webkämme oder Schäfte
sequence_sheds_hint = Sind die Reihen Nummern von Fächern, trag ein, was jedes Fach hebt; dann lässt sich das Gewebe zeichnen.
sequence_lifts = Was jedes Fach hebt, ein Fach je Zeile: 1: 1 2
sequence_threading = Einzug: Schaft jedes Kettfadens, ein Rapport
sequence_threading_hint = 1 2 3 4 oder 1-4. Wenn leer: Geradeinzug.
sequence_sett = Kettdichte (Webkamm)
sequence_sett_hint = Flottierungen werden in wahrer Länge gezeichnet.
sequence_drawing = Das Gewebe dazu
sequence_legend = Dunkel ist die Kette, hell der Schuss; der erste Schuss ist unten. Eine lange Flottierung ist umrandet.
sequence_row = { $row } ({ $section })
sequence_per_press = Einmal drücken zählt
sequence_one_pick = einen Schuss
sequence_two_picks = zwei Schüsse, hin und zurück

## Planen

plan_title = Eine Kette planen
plan_start_from = Ausgangspunkt
plan_from_piece = Vom fertigen Stück aus
plan_from_yarn = Vom vorhandenen Garn aus
plan_already_warped = Schon aufgezogen
plan_piece_lead = Trage ein, welches Stück du möchtest; was du nicht weißt, lass leer.
plan_yarn_lead = Trage ein, welches Garn du hast, und sieh, welche Stücke daraus werden.
plan_copy = Eine frühere Kette übernehmen
plan_copied = Übernommen von { $name }.
plan_piece = Fertiges Stück
plan_length = Länge
plan_length_hint = Nach dem Waschen, ohne Fransen.
plan_width = Breite
plan_width_hint = Nach dem Waschen.
plan_pieces = Stücke in dieser Größe
plan_further = Weitere Längen auf derselben Kette
plan_further_hint = { $unit ->
    [in] In der Reihenfolge des Webens: 24{ "\u00A0" }in, 16{ "\u00A0" }in oder 2 × 6{ "\u00A0" }in.
   *[cm] In der Reihenfolge des Webens: 60{ "\u00A0" }cm, 40{ "\u00A0" }cm oder 2 × 15{ "\u00A0" }cm.
}
plan_edge = Abschluss
plan_edge_none = keiner
plan_edge_fringe = Fransen
plan_edge_hem = Saum
plan_edge_length = Fransen oder Saum an jedem Ende
plan_edge_hint = Beim Saum alles, was umgeschlagen wird.
plan_yarn = Dein Garn
plan_one_yarn = Dasselbe Garn für Kette und Schuss
plan_warp_length = Kettgarn: Länge
plan_weft_length = Schussgarn: Länge
plan_yarn_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd, about 240{ "\u00A0" }m. Oder gib das Gewicht an.
plan_warp_weight = Kettgarn: Gewicht
plan_weft_weight = Schussgarn: Gewicht
plan_weight_hint = Zusammen mit der Garnstärke unten.
plan_known_how = Woher weißt du das?
plan_measured = gemessen
plan_by_label = von der Banderole
plan_estimated = geschätzt
plan_finished_width = Fertige Breite
plan_finished_width_hint = Eingeben oder den Punkt auf der Kurve ziehen.
plan_or_length = Oder fertige Länge
plan_or_length_hint = Wenn die Breite leer ist: so breit, wie das Garn reicht.
plan_loom_width = Webbreite deines Webrahmens
plan_loom_width_hint = Im Webkamm.
plan_threads = Kettfäden und Schüsse
plan_sett_hint = { $unit ->
    [in] Kettfäden pro Zoll, oder wie auf dem Webkamm: 40/10.
   *[cm] Kettfäden auf 10{ "\u00A0" }cm, oder wie auf dem Webkamm: 40/10.
}
plan_picks_hint = { $unit ->
    [in] Schüsse pro Zoll, gespannt.
   *[cm] Schüsse auf 10{ "\u00A0" }cm, gespannt.
}
plan_warp_size = Garnstärke der Kette
plan_warp_size_hint = Wie auf der Banderole: 400{ "\u00A0" }m/100{ "\u00A0" }g, 8/2 cotton, Nm 2/28.
plan_weft_size = Garnstärke des Schusses
plan_weft_size_hint = Wenn leer: wie das Kettgarn.
plan_weft_name = Name des Schussgarns
plan_weft_name_hint = Frühere Ketten mit diesem Garn zeigen, wie viel es braucht.
plan_find_sett = Kettdichte aus Wicklungen oder Garnstärke finden
plan_wraps = Wicklungen des Kettgarns
plan_wraps_hint = { $unit ->
    [in] Dicht an dicht gewickelt, pro Zoll gezählt.
   *[cm] Dicht an dicht gewickelt, auf 10{ "\u00A0" }cm gezählt.
}
plan_k = Ashenhurst-Faktor
plan_k_usual = 0,9, üblich
plan_k_soft = 0,84, weiches Garn
plan_k_cotton = 0,95, Baumwolle
plan_reed_width = Breite im Webkamm, wenn du sie kennst
plan_reed_width_hint = Gilt anstelle der fertigen Breite.
plan_loom = Webrahmen und restliche Kette
plan_waste_hint = Vorn und hinten zusammen, einmal je Kette.
plan_header = Anwebstreifen
plan_sample_first = Webprobe vorab
plan_changes = Einarbeitung, Einsprung, Einlaufen
plan_take_up_before = 100{ "\u00A0" }{ $unit } Gewebe brauchen
plan_take_up_of = Gewebe gemessen
plan_shrinkage = Einlaufen in der Länge
plan_relaxation = Entspannung nach dem Abnehmen
plan_relaxation_hint = Wenn leer: keine.
plan_draw_in = Einsprung in der Breite
plan_width_shrinkage = Einlaufen in der Breite
plan_sample = Aus einer Webprobe
plan_sample_hint = Was du gemessen hast, füllt die leeren Felder darüber.
plan_sample_warp = Verbrauchte Kette
plan_sample_reed = Breite im Webkamm
plan_sample_length = Länge nach dem Abnehmen
plan_sample_width = Breite nach dem Abnehmen
plan_sample_length_washed = Länge nach dem Waschen
plan_sample_width_washed = Breite nach dem Waschen
plan_days = Tage
plan_name_hint = Wenn leer: die Größe.
plan_result = Was du brauchst
plan_more_options = Weitere Möglichkeiten
plan_use_offer = Übernehmen
plan_rule_of_thumb = Faustregel
plan_check_first = Zuerst prüfen
plan_saved_plans = Gespeicherte Pläne
plan_save = Plan speichern
plan_saved = Plan gespeichert. Du findest ihn auf jedem Gerät unter „Planen“.
plan_new = Neuen Plan beginnen
plan_bring_back = Frühere Eingaben zurückholen
plan_remove_named = Plan { $name } entfernen
plan_removed = Plan entfernt.
plan_waiting = { $count ->
    [one] { $count } noch nicht begonnener Plan
   *[other] { $count } noch nicht begonnene Pläne
}
plan_curve = Breite gegen Länge
plan_curve_width = fertige Breite
plan_curve_length = fertige Länge
plan_curve_knob = Breite des Stücks
plan_curve_keys = Punkt ziehen oder mit den Pfeiltasten bewegen; Esc bringt ihn zurück. Schraffiert: zu 80{ "\u00A0" }% wahrscheinlich.

## Abgewebt

off_cut_title = Kette abschneiden
off_cut_lead = { $name }. Trage ein, was du jetzt weißt; den Rest kannst du später messen.
off_cut_done = Kette abgeschnitten.
off_measure_title = Gewebe messen
off_all_pieces = Alle Stücke zusammen, ohne Fransen.
off_cut_on = Abgeschnitten am
off_cut_on_hint = Wenn leer: heute. { day_hint }
off_before_washing = Abgenommen, vor dem Waschen
off_length = Länge nach dem Abnehmen
off_length_hint = Flach gelegt, nicht gedehnt.
off_fell_width = Breite an der Anschlagkante
off_fell_width_hint = Gespannt, vor dem Abschneiden.
off_width = Breite nach dem Abnehmen
off_rest = Restliche Kette
off_front = Vorn
off_front_hint = Vom Anfang der Kette bis zum ersten Schuss, mit Fransen und Knoten.
off_thrums = Kettreste
off_thrums_hint = Vom letzten Schuss bis zum Ende der Kette, mit Fransen.
off_weft_over = Übriges Schussgarn
off_after_washing = Nach dem Waschen
off_finished_length = Länge
off_finished_width = Breite
off_finished_weight = Gewicht
off_finished_weight_hint = Trocken.
off_saved = Maße gespeichert.
off_finishing = Fertigstellen
off_step_done = { $name }: erledigt
off_step_add = Schritt hinzufügen
off_step = Schritt zum Fertigstellen
off_step_name = Was zu tun ist
off_step_on = Erledigt am
off_step_on_hint = Leer lassen, bis es erledigt ist. { day_hint }
off_step_saved = Schritt gespeichert.
off_step_remove = Diesen Schritt entfernen
off_step_removed = Schritt entfernt.
off_planned_and_actual = Geplant und gemessen
off_figure = Größe
off_planned = Geplant
off_actual = Gemessen
off_difference = Unterschied
off_not_measured = Noch nicht gemessen
off_measure = Messen
off_lessons = Aus deinen Ketten gelernt
off_lessons_hint = Für eine Kette wie diese. Dein nächster Plan kann davon ausgehen.
off_removed = Entfernt

## Tempo

pace_table = Was jede Kette gebraucht hat
pace_warp = Kette
pace_length = Gewebte Länge
pace_hours = Zeit am Webrahmen
pace_sittings = Websitzungen
pace_days = Tage vom ersten Schuss bis fertig oder bis jetzt
pace_picks_per_hour = Schüsse pro Stunde
pace_length_per_hour = Länge pro Stunde
pace_hours_per_length = Zeit pro Länge
pace_split = Teilen bei
pace_do_split = Teilen
pace_as_table = Als Tabelle zeigen
pace_as_table_named = { $chart }: als Tabelle zeigen
pace_pictures = Wo Bilder gespeichert werden
pace_save_picture = Bild speichern
pace_save_picture_named = Bild speichern: { $chart }

## Export und Import

export_import = Export und Import
export_import_back = Zurück zum Ordner
export = Export
export_lead = Deine Einträge in Dateien, die jedes Programm lesen kann. Die Werte sind metrisch, mit der Einheit in der Überschrift.
export_folder = Speichern im Ordner
export_folder_hint = Wenn leer: wird jedes Mal gefragt.
export_tables = Tabellen für eine Tabellenkalkulation
export_sittings = Websitzungen
export_warps = Ketten
export_wefts = Schussgarne
export_finishing = Schritte zum Fertigstellen
export_readings = Messungen und Markierungen
export_weighings = Wägungen
export_joins = Garnwechsel
export_places = Stellen in der Schussfolge
export_plans = Pläne
export_photos = Fotos
export_pace = Tempo
export_everything = Alles (JSON)
export_warp = Diese Kette: { $name }
export_sheet = Protokollblatt mit Bildern
export_picture_png = Bild des Fortschritts (PNG)
export_picture_svg = Bild des Fortschritts (SVG)
import = Importieren
import_lead = Websitzungen oder frühere Ketten aus einer CSV-Datei, oder in einen leeren Ordner ein ganzes Protokoll aus „Alles (JSON)“. Du siehst, was verstanden wurde, bevor etwas gespeichert wird, und einmal Rückgängig nimmt alles zurück.
import_choose_file = Datei wählen
import_contents = Inhalt
import_guess = nach den Überschriften
import_warp = Kette für Zeilen, die keine nennen
import_no_warp = keine
import_columns = Spalten
import_column = Bedeutung der Spalte { $heading }
import_sample = zum Beispiel { $text }
import_refused = Zeilen, die sich nicht importieren lassen
import_line = Zeile { $line }:
import_reading = Wird gelesen …
import_writing = Wird importiert …
import_progress = Fortschritt
import_rows = { $done } von { $count } Zeilen

## Ordner und Einstellungen

folder_path = Speicherort
folder_status = Stand
folder_waiting = { $count ->
    [one] { $count } Eintrag ist bisher nur auf diesem Gerät.
   *[other] { $count } Einträge sind bisher nur auf diesem Gerät.
}
folder_write_back = Fehlende Einträge wiederherstellen
folder_written_back = Einträge wiederhergestellt.
folder_mark = Diesen Ordner neu kennzeichnen
folder_mark_question = Ist das der richtige Ordner?
folder_mark_warning = Alle wartenden Einträge werden in { $path } gespeichert. Das lässt sich nicht rückgängig machen. Wenn dort andere Aufzeichnungen sind, wähle stattdessen einen anderen Ordner.
folder_mark_confirm = Diesen Ordner kennzeichnen
folder_mark_cancel = So lassen
folder_marked = Ordner gekennzeichnet.
folder_problems = Probleme mit Dateien
folder_devices = Geräte
folder_this_device = dieses Gerät
folder_device_name = Name dieses Geräts
folder_name_saved = Name gespeichert.
folder_units = Längeneinheiten
folder_metric = Zentimeter
folder_imperial = Zoll
folder_weights = Gewichtseinheiten
folder_grams = Gramm
folder_ounces = Unzen
folder_units_hint = Für alle gezeigten Werte und für Zahlen ohne Einheit. Eingeben kannst du jede Einheit.
folder_choose_another = Anderen Ordner wählen
folder_close = Diesen Ordner schließen
folder_close_hint = Die Dateien bleiben, wo sie sind.
folder_close_sample_hint = Die Beispieldaten werden gelöscht.
folder_closed = Ordner geschlossen. Seine Dateien bleiben, wo sie sind.
folder_keys = Tastatur
folder_keys_pick = Leertaste, Eingabetaste, ein Buchstabe, ein Pfeil, Bild auf oder Bild ab
folder_keys_pick_does = beim Weben: einen Schuss zählen (auch ein Pedal, das eine Taste sendet; unter „Mehr“ lässt sich eine einzelne Taste wählen)
folder_keys_back = Rücktaste, Entf, −
folder_keys_back_does = beim Weben: einen Schuss zurücknehmen
folder_keys_not_beaten = Esc
folder_keys_not_beaten_does = beim Weben: einen Schuss als noch nicht angeschlagen markieren; noch einmal hebt das auf
folder_keys_undo = Strg + Z
folder_keys_undo_does = die letzte Änderung rückgängig machen, außer beim Tippen
folder_keys_arrows = Pfeiltasten
folder_keys_arrows_does = im Bild der Kette: von Teil zu Teil; die Eingabetaste öffnet eine Websitzung

## Anleitung und Hilfe

guide = Anleitung
guide_and_about = Anleitung und Angaben zu Fellmark
guide_contents = Inhalt
guide_next = Weiter: { $title }
guide_untranslated = Diese Seite ist noch nicht übersetzt. Hier steht sie auf Englisch.
about = Über Fellmark
about_version = Version { $version }, freie Software unter der MIT-Lizenz.
about_folder = Deine Aufzeichnungen sind Dateien in einem Ordner von dir. Nichts wird irgendwohin gesendet.
about_cautions = Warnhinweise stehen dort, wo die Gefahr ist. Sie ersetzen nicht die Vorschriften an deinem Ort.
about_licence = Die Lizenz
about_libraries = Die enthaltenen Bibliotheken haben eigene Lizenzen. Das Paket führt sie in der Datei third-party-notices auf.
help_first_warp = Hilfe: die erste Kette
help_at_the_loom = Hilfe: am Webrahmen
help_plan_from_yarn = Hilfe: vom Garn aus planen
help_off_the_loom = Hilfe: nach dem Abnehmen
help_two_devices = Hilfe: zwei Geräte
help_backup = Hilfe: sichern und wiederherstellen
help_deleting = Hilfe: endgültig löschen
help_figures = Hilfe: was jede Zahl bedeutet

## Tage

day_today = heute
day_yesterday = gestern
day_pick = Tag wählen
day_hint = Etwa 2026-03-09, oder wie du ein Datum sonst schreibst.
day_month_before = Voriger Monat
day_month_after = Nächster Monat
