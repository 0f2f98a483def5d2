### Les phrases faites en Rust. Longueurs, poids, jours et nombres arrivent déjà écrits.

## Jours et nombres

between_days = entre le { $from } et le { $to }
spoken_today = aujourd’hui
spoken_yesterday = hier
spoken_tomorrow = demain
percentage = { $figure }{ "\u202F" }%
percentage_of = { $figure }{ "\u202F" }%
chance_above = plus de { $share }
chance_below = moins de { $share }
per_10_cm = { $figure } sur 10{ "\u00A0" }cm
per_inch = { $figure } par pouce
picks_per_10_cm = duites sur 10{ "\u00A0" }cm
picks_per_inch = duites par pouce
approximately = environ { $figure }
span_of_figures = { $low } à { $high }
pieces_of_length = { $count ->
    [one] { $count } pièce de { $size }
   *[other] { $count } pièces de { $size }
}

## La chaîne suffit-elle ?

warp_cut_off = La chaîne est coupée.
warp_wound_unknown = La longueur de la chaîne n’est pas connue.
warp_wound_unknown_remedy = Indiquez-la sous «{ "\u00A0" }Modifier la chaîne{ "\u00A0" }»{ "\u00A0" }; une estimation suffit.
woven_unknown = La longueur tissée n’est pas encore connue.
woven_unknown_remedy = Mesurez une fois, ou indiquez le duitage.
cannot_calculate = Cela ne peut pas encore être calculé.
because = La raison{ "\u00A0" }: { $error }.
warp_was_enough = La chaîne a suffi, avec environ { $over } de tissu en réserve.
warp_was_just_enough = La chaîne a tout juste suffi.
warp_enough = La chaîne suffit, avec environ { $over } de tissu en réserve.
warp_just_enough = La chaîne suffit tout juste.
warp_tight_over = Juste{ "\u00A0" }: peut-être { $over } de tissu en réserve.
warp_tight_none = Juste{ "\u00A0" }: la chaîne suffit à peine, sans réserve.
warp_tight_missing = Juste{ "\u00A0" }: il manquera peut-être { $missing } de tissu.
warp_not_enough = La chaîne ne suffit pas{ "\u00A0" }: il manque environ { $missing } de tissu.
warp_not_quite_enough = La chaîne ne suffit pas tout à fait.
warp_probably_not_enough = La chaîne ne suffira sans doute pas{ "\u00A0" }: il manque environ { $missing } de tissu.
warp_probably_not_quite_enough = La chaîne ne suffira sans doute pas tout à fait.
cloth_possible = Encore { $possible } de tissu possibles.
cloth_possible_remedy = Indiquez la longueur voulue pour savoir si cela suffit.
to_weave_and_possible = Reste à tisser{ "\u00A0" }: { $to_weave }. Encore possible{ "\u00A0" }: { $possible }.
warp_chance = Suffit avec une probabilité de { $chance }.
relaxation_from_pairs = { $pairs ->
    [one] Sans tension, ce tissu perd { $percent }{ "\u00A0" }% de sa longueur{ "\u00A0" }: mesuré une fois tendu et détendu sur cette chaîne.
   *[other] Sans tension, ce tissu perd { $percent }{ "\u00A0" }% de sa longueur{ "\u00A0" }: mesuré { $pairs } fois tendu et détendu sur cette chaîne.
}
relaxation_from_warps = { $warps ->
    [one] Sans tension, ce tissu perd { $percent }{ "\u00A0" }% de sa longueur, comme votre chaîne précédente.
   *[other] Sans tension, ce tissu perd { $percent }{ "\u00A0" }% de sa longueur, comme { $warps } de vos chaînes précédentes.
}
relaxation_assumed = On suppose que ce tissu perd { $percent }{ "\u00A0" }% de sa longueur sans tension, quatre fois sur cinq entre { $least } et { $most }{ "\u00A0" }%{ "\u00A0" }: une estimation d’après quelques cas rapportés, sans source. Mesurez le même tissu tendu et détendu pour le savoir.
off_loom_needs = { $off_loom } hors du métier demandent { $under_tension } sous tension.
fibre_loses = { $to_weave } à tisser en tout{ "\u00A0" }: d’après la fibre et la finition, le tissu perd environ { $relaxed }{ "\u00A0" }% hors tension puis { $usual }{ "\u00A0" }% au lavage, selon d’autres entre { $least } et { $most }{ "\u00A0" }%. Vos propres chaînes en diront plus une fois mesurées.
reading_beyond_warp = Le mètre indiquait { $read }, mais seuls { $wound } de chaîne ont été ourdis. La mesure est gardée mais pas utilisée{ "\u00A0" }; était-ce une erreur{ "\u00A0" }?
take_up_beyond_cloth = Chaîne ourdie, début et pennes laissent { $per_100 } de chaîne pour 100 de tissu, ce qu’aucun tissu n’absorbe{ "\u00A0" }: rien n’en est appris. L’une des longueurs manque-t-elle, ou est-elle mal lue{ "\u00A0" }?
yarn_reaches_one_time_in_two = Le fil ne suffit pour { $planned } qu’une fois sur deux. Il suffit pour { $nine_in_ten } neuf fois sur dix.
size_finished = { $length } finis
size_off_loom = { $length } hors du métier
size_on_loom = { $length } sur le métier
enough_for_piece = Avec une probabilité de { $chance }{ "\u00A0" }: une pièce de { $size }.
enough_for_each_piece = Avec une probabilité de { $chance }{ "\u00A0" }: des pièces de { $size } chacune.
enough_for_last_piece = Avec une probabilité de { $chance }{ "\u00A0" }: une dernière pièce de { $size }.
enough_for_pieces_left = { $count ->
    [one] Avec une probabilité de { $chance }{ "\u00A0" }: { $size } pour la pièce qui reste à tisser.
   *[other] Avec une probabilité de { $chance }{ "\u00A0" }: { $size } pour chacune des { $count } pièces qui restent à tisser.
}
enough_to_end_of_piece = Avec une probabilité de { $chance }{ "\u00A0" }: jusqu’à la fin de la pièce { $piece }.
enough_up_to_piece = Avec une probabilité de { $chance }{ "\u00A0" }: { $size } pour la pièce { $piece }.
enough_up_to_piece_only = Avec une probabilité de { $chance }{ "\u00A0" }: { $size } pour la pièce { $piece }, et aucune autre ensuite.
warp_left_sum = { $terms ->
    [both] { $wound } ourdis − { $waste } de perte − { $fringe } de franges − { $gaps } entre les pièces − { $in_cloth } dans le tissu ({ $woven } tissés × { $factor }) = { $left } de chaîne restants.
    [fringe] { $wound } ourdis − { $waste } de perte − { $fringe } de franges − { $in_cloth } dans le tissu ({ $woven } tissés × { $factor }) = { $left } de chaîne restants.
    [gaps] { $wound } ourdis − { $waste } de perte − { $gaps } entre les pièces − { $in_cloth } dans le tissu ({ $woven } tissés × { $factor }) = { $left } de chaîne restants.
   *[none] { $wound } ourdis − { $waste } de perte − { $in_cloth } dans le tissu ({ $woven } tissés × { $factor }) = { $left } de chaîne restants.
}
cloth_from_warp_left = Cela fait { $cloth } de tissu{ "\u00A0" }: 100 de tissu prennent { $per_100 } de chaîne.
span_wider_than_chance = L’intervalle est large parce que la longueur tissée n’est connue qu’à { $give_or_take } près. Cela ne réduit pas la probabilité{ "\u00A0" }: si plus est déjà tissé, il reste moins à tisser.
warp_per_100_from_mark = Un repère de chaîne à { $along } est arrivé à la façure après { $woven } de tissu. L’embuvage en découle.
warp_per_100_from_mark_not_given = Un repère de chaîne à { $along } est arrivé à la façure après { $woven } de tissu. L’embuvage en découle, et non des { $given } indiqués.
take_up_assumed = Aucun embuvage n’est indiqué{ "\u00A0" }: un dixième est supposé (règle empirique). L’intervalle en est plus large.
waste_assumed = Aucune perte de chaîne n’est indiquée{ "\u00A0" }: { $least } à { $most } sont supposés, comme il est d’usage au peigne envergeur (règle empirique).
last_shed = La dernière foule utilisable s’arrête un peu avant le peigne{ "\u00A0" }; gardez une largeur de main.

## Les réponses en un coup d’œil
glance_woven = { $woven } sur { $wanted }
glance_to_weave = { $picks ->
    [one] Encore { $to_weave }, environ { $picks } duite.
   *[other] Encore { $to_weave }, environ { $picks } duites.
  }
glance_day = { $day }
glance_gift = Avec une probabilité de { $chance } d’ici au { $day }, jour du cadeau.
glance_span = Avec une probabilité de { $chance } entre le { $from } et le { $to }.

## La trame suffit-elle ?

weft_not_needed = Il ne faut plus de trame.
weft_missing = Aucune trame n’est indiquée.
weft_missing_remedy = Indiquez son poids ou sa longueur sous «{ "\u00A0" }Modifier la chaîne{ "\u00A0" }».
weft_reach_unknown = On ne sait pas encore jusqu’où ira la trame.
weft_reach_unknown_weigh = Pesez ce qui reste après avoir un peu tissé{ "\u00A0" }; le reste en découle.
weft_reach_unknown_enter = Indiquez son poids ou sa longueur, et la largeur au peigne.
weft_needed = Il faut encore environ { $length } de fil.
weft_needed_without_joins = Il faut encore environ { $length } de fil, sans les raccords ni le jour d’ourlet.
weft_was_enough = La trame a suffi.
weft_enough = La trame suffit, pour environ { $over } de tissu de plus que nécessaire.
weft_just_enough = La trame suffit tout juste.
weft_tight_over = Juste{ "\u00A0" }: peut-être de la trame pour { $over } de tissu en réserve.
weft_tight_none = Juste{ "\u00A0" }: la trame suffit à peine, sans réserve.
weft_tight_missing = Juste{ "\u00A0" }: la trame s’épuisera peut-être { $missing } avant la fin.
weft_not_enough = La trame ne suffit pas{ "\u00A0" }: elle s’épuise environ { $missing } avant la fin.
weft_not_quite_enough = La trame ne suffit pas tout à fait{ "\u00A0" }: elle s’épuise juste avant la fin.
weft_probably_not_enough = La trame ne suffira sans doute pas{ "\u00A0" }: elle s’épuisera environ { $missing } avant la fin.
weft_probably_not_quite_enough = La trame ne suffira sans doute pas tout à fait{ "\u00A0" }: elle s’épuisera juste avant la fin.
weft_possible = De la trame pour encore { $possible }.
to_weave_and_weft_possible = Reste à tisser{ "\u00A0" }: { $to_weave }. Trame restante pour{ "\u00A0" }: { $possible }.
weft_chance = Suffit avec une probabilité de { $chance }.
yarn_not_counted = { $yarn } n’est pas compté{ "\u00A0" }: on ne sait pas jusqu’où il ira. Pesez-le, ou indiquez sa longueur.
yarn_half_gone = Environ la moitié de { $yarn } est utilisée, après { $woven } de tissu. Pour que les deux bouts se répondent, inversez la suite à partir d’ici.
yarn_half_gone_now = Environ la moitié de { $yarn } est utilisée. Pour que les deux bouts se répondent, inversez la suite à partir d’ici.
amount_left = reste { $amount }
yarns_one_after_another = Les fils sont tissés l’un après l’autre, chacun d’après ce qui a été tissé avec lui.
yarn_and_reason = { $yarn }{ "\u00A0" }: { $reason }
yarn_possible = { $yarn }{ "\u00A0" }: assez pour encore { $size }.
yarn_known_by_scale = { $first } au début, { $last } à la dernière pesée{ "\u00A0" }: { $used } pour { $woven } de tissu. Une balance de cuisine est précise à un gramme près{ "\u00A0" }; une petite différence dit donc peu.
yarn_known_by_length = { $since ->
    [measured] { $from } à la dernière mesure, environ { $used } utilisés depuis{ "\u00A0" }: une duite prend { $pick }. Peser ce qui reste serait plus précis.
    [measured_unused] { $from } à la dernière mesure, rien d’utilisé depuis{ "\u00A0" }: une duite prend { $pick }. Peser ce qui reste serait plus précis.
    [start_unused] { $from } au début, rien d’utilisé depuis{ "\u00A0" }: une duite prend { $pick }. Peser ce qui reste serait plus précis.
   *[start] { $from } au début, environ { $used } utilisés depuis{ "\u00A0" }: une duite prend { $pick }. Peser ce qui reste serait plus précis.
}
yarn_known_as_other = Seul son poids est connu{ "\u00A0" }: on suppose qu’à poids égal il va aussi loin que { $other }, à un cinquième près.
yarn_known_by_label = La longueur du fil découle de ce qu’il mesurait et pesait au début.

## Avancement

progress_nothing_woven = Rien n’est encore tissé.
cloth_to_go = encore { $length }
progress_nothing_woven_of = Rien n’est encore tissé ; { $wanted } à tisser.
progress_picks_only = { $picks ->
    [one] { $picks } duite tissée. Mesurez une fois pour savoir quelle longueur cela fait.
   *[other] { $picks } duites tissées. Mesurez une fois pour savoir quelle longueur cela fait.
}
progress_all_woven = Les { $wanted } sont tissés.
progress_ready_to_cut = Les { $wanted } sont tissés : prêt à couper.
progress_woven_of = { $woven } tissés sur { $wanted }.
progress_about_woven_of = Environ { $woven } tissés sur { $wanted }.
progress_woven = { $woven } tissés.
progress_about_woven = Environ { $woven } tissés.
progress_measure_before_cutting = Cela vient des duites seules, à { $give_or_take } près : mesurez avant de couper.
progress_piece = Pièce { $piece } sur { $pieces } : { $woven } sur { $whole }.
progress_picks = { $picks ->
    [one] { $picks } duite jusqu’ici.
   *[other] { $picks } duites jusqu’ici.
}
progress_place = { SENTENCE($place) }
progress_place_and_piece = { CAPITAL($place) }, { $piece }.
progress_pick_begun = La dernière fois ({ $day }), vous vous êtes arrêtée au milieu d’une duite : elle n’est pas encore tassée.
progress_pick_begun_in = La dernière fois ({ $day }), vous vous êtes arrêtée au milieu d’une duite : elle n’est pas encore tassée ({ $next }).
progress_last_sitting = Dernière séance : { $day }.
progress_rate_measured = Mesuré sur ce tissu : { $density }. Le mètre passe d’abord ; les duites complètent entre deux mesures et après.
progress_rate_planned = { $density } comme prévu : rien n’est encore mesuré sur ce tissu.
progress_estimated = Certaines valeurs sont estimées, la longueur est donc moins sûre.
progress_within = Longueur tissée connue à { $give_or_take } près (probabilité { $chance }).
progress_finished_sum = { $finished } une fois finis demandent { $on_loom } sur le métier : { $whole } ÷ (1 − { $share }).
progress_no_loss = Aucun retrait indiqué, le calcul n’en tient donc pas compte. La plupart des tissus perdent quelques pour cent hors du métier et au lavage.
progress_time = { $sittings ->
    [one] Au métier : { $time } en { $sittings } séance.
   *[other] Au métier : { $time } en { $sittings } séances.
}
notice_of_day = { CAPITAL($day) } : { $notice }
notice_apart = Le mètre donne { $by_tape }, les duites { $by_counts }. Le mètre est retenu ; était-il posé au bon repère ?
notice_shrunk = Le mètre donnait { $before } avant et { $now } maintenant, sans que rien ait été détissé. La dernière mesure est retenue.
notice_uncounted = { $sittings ->
    [one] { $sittings } séance depuis la dernière mesure n’a ni duites ni longueur : son tissu manque ici.
   *[other] { $sittings } séances depuis la dernière mesure n’ont ni duites ni longueur : leur tissu manque ici.
}
notice_no_mark = Une longueur a été mesurée depuis le dernier repère, mais aucun n’était posé ; elle compte depuis le début.
notice_beat_changes = { $change ->
    [loosening] Vous tassez moins : { $from } au début, maintenant { $density }.
   *[tightening] Vous tassez davantage : { $from } au début, maintenant { $density }.
}
notice_beat_jumped = Le dernier passage a { $density } ; avant, c’était { $before }. Surveillez le tassage.
density_in_picks = { $figure } { $unit }
tape_mark_at = Le repère est maintenant à la façure, à { $at } du début. Mesurez à partir de lui la prochaine fois.
tape_warp_mark = Le repère de chaîne noué à { $along } est à la façure après { $woven } de tissu : 100 de tissu prennent { $per_100 } de chaîne. Cette valeur sert désormais, au lieu de { $before }.
tape_near_interval = La différence est proche des { $between } d’un repère au suivant : avez-vous mesuré depuis un autre repère ?
tape_alone = { $tape } au mètre ; il n’y a pas de duites à comparer.
tape_agrees = { $tape } au mètre, et les duites concordent.
tape_used = { $tape } au mètre, { $counts } d’après les duites. Le mètre est retenu : les duites ne donnent une longueur que par le tassage, et il varie.
tape_rate = Désormais calculé avec { $density }.

## Séances et mesures

availability_entered = Selon vos indications : { $parts }.
availability_days_a_week = jours de tissage par semaine : environ { $days }
availability_minutes_a_day = temps au métier par jour : environ { $time }
availability_weekdays = jours de tissage : { $days }
availability_away_on = absence le { $day }
availability_away = absence du { $from } au { $until }
availability_every_day = tous les jours jusqu’au { $until }
sitting_since = depuis { $time }
learned_behind = { $warps ->
    [one] d’après { $warps } chaîne
   *[other] d’après { $warps } chaînes
}
learned_behind_alike = { $warps ->
    [one] d’après { $warps } chaîne, { $alike ->
        [0] qui ne ressemble pas à celle-ci
       *[other] dont { $alike } comme celle-ci
    }
   *[other] d’après { $warps } chaînes, { $alike ->
        [0] aucune comme celle-ci
       *[other] dont { $alike } comme celle-ci
    }
}
learned_take_up = Embuvage
learned_take_up_is = 100{ "\u00A0" }cm de tissu prennent { $per_100 }{ "\u00A0" }cm de chaîne, à { $deviation } près
learned_length_lost = Perte en longueur
learned_length_lost_is = { $percent } de la longueur se perdent du métier à la pièce finie, à { $deviation } près
learned_width_lost = Perte en largeur
learned_width_lost_is = { $percent } de la largeur se perdent du peigne à la pièce finie, à { $deviation } près
learned_waste = Perte de chaîne
learned_waste_is = { $waste } de perte de chaîne, à { $deviation } près
learned_weft = Trame
learned_weft_is = { $mass } de trame par mètre tissé
learned_pace = Rythme
learned_pace_is = { $picks } duites par heure au métier
yarn_without_name = la trame
yarn_saved = { CAPITAL($yarn) } : enregistré. La prochaine pesée, après quelques duites, montrera jusqu’où il va.
yarn_in_use_from_here = { CAPITAL($yarn) } : utilisé à partir d’ici.
yarn_at_first = { $amounts } au début
yarn_at_last_look = { $left } à la dernière pesée ou mesure
yarn_woven = { $woven } tissés avec
yarn_enough_for = suffit encore pour environ { $size }
moment_tape = { $from ->
    [mark] { $length } depuis le repère
    [mark_relaxed] { $length } depuis le repère, sans tension
    [start_relaxed] { $length } depuis le début, sans tension
   *[start] { $length } depuis le début
}
moment_mark_moved = repère placé à la façure
moment_warp_mark = repère de chaîne noué à { $along } à la façure
moment_weighed = { CAPITAL($yarn) } : { $left }
moment_yarn_in_use = { CAPITAL($yarn) } : en service
moment_place = { $part ->
    [opening] position : duite { $pick } de la bordure de début
    [balance] position : duite { $pick } des duites d’équilibre
    [closing] position : duite { $pick } de la bordure de fin
   *[repeat] position : duite { $pick } du rapport { $repeat }
}
moment_place_in_piece = pièce { $piece } : { $place }

## Suite des duites

## La séance en cours

## Date de fin

## Rythme

## Plans

## Hors du métier

## Fiche

## Images et graphiques

## Tableaux

## Le dossier

## Conflits et annulation

## Précautions

stretch_due = { $minutes } minutes sans pause. La prochaine fois que vous avancez la chaîne, levez-vous et détendez épaules et mains. Si une douleur persiste, consultez un médecin.
stretch_at_an_advance = { $minutes } minutes sans pause : en avançant la chaîne, levez-vous et détendez épaules et mains.

## Ligne de commande

## Erreurs

## Mises en garde, et leur origine

caution_child_neck = Pour un jeune enfant{ "\u00A0" }: ce qui entoure le cou peut étrangler. Ni cordons, ni liens, ni longues franges près de la tête{ "\u00A0" }; un tour de cou fermé est plus sûr qu’une écharpe, et ni l’un ni l’autre ne convient au sommeil ou au jeu.
caution_child_neck_source = EN 14682 n’admet aucun cordon à la capuche ni au cou jusqu’à 7 ans{ "\u00A0" }; elle ne couvre pas les écharpes, mais demande de les juger selon les mêmes principes
caution_child_small_parts = Pour un jeune enfant{ "\u00A0" }: boutons, perles et bouts libres se détachent et peuvent être avalés. Évitez-les, rentrez les bouts, et tirez fort sur tout ce qui est cousu.
caution_child_small_parts_source = d’après EN 71-1, petites pièces des jouets{ "\u00A0" }; de mémoire
caution_posture = Tisser fatigue épaules, nuque et poignets. Asseyez-vous les coudes un peu au-dessus de la poitrinière, changez de main pour lancer, et levez-vous avant d’avoir mal.
caution_posture_source = usage courant, sans source
caution_dust = Le fil fait de la poussière, surtout là où frotte le peigne. Aérez, balayez humide, et portez un masque si vous toussez ou sifflez.
caution_dust_source = usage courant, sans source
caution_hot_water = L’eau chaude et la vapeur brûlent, et le tissu mouillé est lourd. Essayez la chaleur sur un échantillon, et éloignez enfants et animaux.
caution_hot_water_source = usage courant, sans source
caution_dyes = Les couleurs peuvent dégorger au premier lavage{ "\u00A0" }: lavez à part. Pour teindre, portez des gants, ne respirez pas les poudres, séparez les casseroles de cuisine, et suivez l’étiquette de chaque mordant.
caution_dyes_source = usage courant, comme dans J. Dean, The Craft of Natural Dyeing
cautions_heading = Prudence
cautions_local_rules = Ces mises en garde ne remplacent ni les règles en vigueur chez vous, ni l’avis d’un médecin.

### L’interface. Un argument qui choisit entre des cas est un nombre ou l’un des mots entre crochets ; $unit est l’unité de longueur, in ou cm.
### Devant ; ! ? il y a une espace fine insécable, devant : et dans les guillemets une espace insécable.

## Partout

product_name = Fellmark
screens = Écrans
skip_to_content = Aller au contenu
on_the_loom = Sur le métier
plan = Planifier
off_the_loom = Hors du métier
pace = Rythme
folder = Dossier
folder_state = Dossier :
undo = Annuler : { $action }
undone = Annulé.
sample_data = Données d’exemple
close_sample = Fermer l’exemple
close = Fermer
back = Retour
change = Modifier
change_named = Modifier : { $name }
remove = Retirer
restore = Rétablir
save = Enregistrer
saved = Enregistré.
saved_to = Enregistré dans { $path }.
stop = Arrêter
try_again = Réessayer
got_it = Compris
why = Pourquoi ?
result = Résultat
estimates = Valeurs estimées
note = Note
name = Nom
unit_picks_per = { $unit ->
    [in] duites par pouce
   *[cm] duites aux 10{ "\u00A0" }cm
}
unit_ends_per = { $unit ->
    [in] fils par pouce
   *[cm] fils aux 10{ "\u00A0" }cm
}
trouble_unknown = Cela n’a pas marché. Rien n’a été modifié ; veuillez réessayer.

## Premier démarrage

welcome_what = Fellmark compte les duites pendant que vous tissez. Il montre où vous en êtes, si la chaîne et la trame suffisent, et quand la pièce sera terminée.
welcome_where = Il enregistre de simples fichiers dans un dossier de votre choix. Aucun compte ; rien n’est envoyé.
welcome_device_hint = Distingue ses entrées de celles des autres appareils. Si vide : { $name }.
welcome_choose_folder = Choisir un dossier
welcome_type_path = Saisir plutôt son chemin
welcome_path = Chemin du dossier, comme ~/Tissage
welcome_use_folder = Utiliser ce dossier
welcome_create_folder = Créer ce dossier
welcome_open_sample = Ouvrir l’exemple
welcome_sample_hint = Une écharpe aux chiffres inventés, pour essayer.

## Lecture du dossier

reading_started = Lecture du dossier. Cela peut durer un peu ; vous pouvez l’arrêter.
reading_list = Lecture du dossier : recherche des fichiers
reading_files = Lecture du dossier : { $done } fichiers sur { $count }
reading_bar = Fichiers lus
reading_stopping = Arrêt dès que le disque répond

## Sur le métier

loom_start_weaving = Commencer à tisser
loom_continue_weaving = Continuer à tisser
loom_stop_weaving = Arrêter de tisser
loom_sitting_running = Une séance est en cours { $since }.
loom_warps = Chaînes
loom_state_on_the_loom = sur le métier
loom_state_resting = mise de côté
loom_state_off_the_loom = hors du métier
loom_state_removed = retirée
loom_conflicts = { $count ->
    [one] { $count } entrée contradictoire
   *[other] { $count } entrées contradictoires
}
loom_this_warp = Cette chaîne
loom_add_past_sitting = Ajouter une séance passée
loom_change_warp = Modifier la chaîne
loom_set_aside = Mettre de côté
loom_bring_back = Remettre sur le métier
loom_cut_off = Couper
loom_print = Imprimer
loom_remove_warp = Retirer cette chaîne
loom_removed_note = Cette chaîne a été retirée. Toutes ses séances restent enregistrées.
loom_take_care = Attention
loom_nothing = Il n’y a rien sur le métier.
loom_was_set_aside = Chaîne mise de côté.
loom_is_back = La chaîne est sur le métier.
loom_warp_removed = Chaîne retirée.
loom_warp_restored = Chaîne rétablie.

## Les réponses

answers = Aperçu
answers_where = Où en suis-je ?
answers_warp = Assez de chaîne ?
answers_weft = Assez de trame ?
answers_when = Quand sera-ce fini ?
answers_well = Oui
answers_close = Juste
answers_short = Trop peu
answers_open = Pas encore connu

## Images de la chaîne et des jours

picture_title = La chaîne à l’échelle
picture_arrows = Les flèches passent d’une partie à l’autre ; Début et Fin vont aux extrémités.
picture_opens = Entrée ouvre une séance.
picture_as_text = En texte
picture_photos = Les bandes avec image sont des séances avec photo.
picture_fell = façure
picture_ticks = { $unit ->
    [in] Un trait tous les 6{ "\u00A0" }pouces de chaîne.
   *[cm] Un trait tous les 10{ "\u00A0" }cm de chaîne.
}
days_title = Jour après jour
days_whole = longueur totale
days_legend = Trait : tissé jusqu’ici. Zone hachurée : probable à 80{ "\u00A0" }%. Tirets : aussi souvent plus tôt que plus tard.
days_woven = Trait : tissé jusqu’ici.

## Séances

sittings_title = Séances
sittings_none = Pas encore de séance.
sittings_show_all = Afficher les { $count }
sittings_correct = Corriger
sittings_add_photos = Ajouter des photos
sittings_photos = Photos : { $count }
sittings_saved_on = Enregistrée sur { $device }.
sittings_contested = Retirée sur un appareil et modifiée sur un autre. Choisissez sous « Entrées contradictoires ».
sittings_removed = { $count ->
    [one] { $count } séance retirée
   *[other] { $count } séances retirées
}
sittings_was_removed = Séance retirée.
sittings_was_restored = Séance rétablie.

## Entrées contradictoires

conflicts_title = Entrées contradictoires
conflicts_hint = Deux appareils ont enregistré des valeurs différentes. Choisissez la bonne ; rien n’est perdu.
conflicts_in_use = utilisée pour l’instant
conflicts_from = de { $device }
conflicts_settled = Contradiction réglée.

## Tisser

tap_title = Tissage
tap_surface = Compter une duite
tap_first = La première duite lance le minuteur.
tap_how = Touchez l’écran n’importe où, ou appuyez sur une touche, à chaque duite.
tap_last = Dernière duite : { $pick }
tap_then = puis { $pick }
tap_picks = { $count ->
    [one] duite cette séance
   *[other] duites cette séance
}
tap_on_this_warp = { $count } sur cette chaîne
tap_minutes = { $count ->
    [one] { $count } minute
   *[other] { $count } minutes
}
tap_minutes_paused = { $count ->
    [one] { $count } minute, minuteur en pause
   *[other] { $count } minutes, minuteur en pause
}
tap_minutes_held = { $count }{ "\u00A0" }min, en pause
tap_pause = Suspendre
tap_resume = Reprendre
tap_undo_pick = Annuler la duite
tap_not_beaten = Duite pas encore tassée
tap_not_beaten_sign = Pas encore tassée :
tap_advance = Avancer la chaîne
tap_more = Plus
tap_screen_may_turn_off = L’écran peut s’éteindre ici ; aucune duite n’est perdue.
tap_waiting = { $count ->
    [one] { $count } duite n’est pas encore enregistrée.
   *[other] { $count } duites ne sont pas encore enregistrées.
}
tap_save_now = Enregistrer maintenant
tap_place_set = Position fixée. Le nombre de duites ne change pas.

## Tisser : position, touches, son, rappel

weaving_settings = Réglages du tissage
weaving_settings_back = Retour au tissage
place_title = Position dans la séquence
place_hint = Choisissez le rang qui vient ensuite. Le nombre de duites ne change pas.
place_repeat = Rapport
place_repeat_hint = Le rapport en cours ; pour les duites d’équilibre et la bordure de fin, les rapports tissés.
place_piece = Pièce
place_no_sequence = Cette chaîne n’a pas encore de séquence de duites.
place_add_sequence = En ajouter une
place_now = suivant selon le compte
keys_title = Touches et pédale
keys_any = Chaque touche compte une duite ; Retour arrière en annule une.
keys_pick = Seule { $key } compte une duite.
keys_back = { $key } annule une duite.
keys_choose_pick = Choisir une touche ou une pédale pour la duite
keys_choose_back = En choisir une pour annuler une duite
keys_press = Appuyez maintenant sur la touche ou la pédale
keys_any_again = Reprendre toutes les touches
keys_note = Échap signale une duite pas encore tassée. Les touches ne valent que sur cet appareil.
keys_space = Espace
sound_title = Son
sound_on = Un léger tic à chaque duite
stretch_title = Rappel pour s’étirer
stretch_hint = Après ce temps de tissage sans pause, sur tous les appareils de ce dossier.
stretch_care = Levez-vous avant d’avoir mal, changez de main pour lancer, et aérez{ "\u00A0" }: le fil fait de la poussière.
stretch_never = jamais
stretch_minutes = { $count }{ "\u00A0" }min

## Mesurer et peser

measure_title = Mesurer ou peser
measure_lead = Saisissez ce que vous avez mesuré ; laissez le reste vide.
measure_move_mark = Déplacer le repère à la façure
measure_yarn_left = Fil restant
measure_yarn_hint = Par poids ou par longueur : 42{ "\u00A0" }g, about 120{ "\u00A0" }m.
measure_on_shuttle = Pesé sur sa navette, qui pèse { $weight } à vide
measure_yarn_next = Fil à partir d’ici
measure_yarn_same = sans changement
measure_warp_mark = Un repère de chaîne est à la façure
measure_warp_mark_at = Distance depuis la première duite, le long de la chaîne
measure_warp_mark_hint = Un fil noué sur un fil de chaîne à l’ourdissage. Il montre l’embuvage réel.

## Fils de trame

yarns_title = Fils de trame
yarns_none = Pas encore de fil de trame.
yarns_add = Ajouter un fil
yarns_new = Ajouter un fil de trame
yarns_change = Modifier un fil de trame
yarns_on_shuttle = sur la navette
yarns_use = Utiliser à partir d’ici
yarns_use_named = Utiliser à partir d’ici : { $name }
yarns_in_use = Fil en usage.
yarns_saved = Fil enregistré.
yarns_removed = Fil retiré.
yarns_weight = Poids au départ
yarns_weight_hint = Fil seul.
yarns_length = Longueur au départ
yarns_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd ; about 240{ "\u00A0" }m si elle est approximative.
yarns_shuttle = Poids de sa navette vide
yarns_shuttle_hint = Ou de la canette. Il est déduit quand vous pesez le fil dessus.
yarns_left = reste { $percent }{ "\u00A0" }%

## Autres entrées, photos

records_title = Autres entrées
records_removed = Entrée retirée.
photos_title = Photos
photos_over_time = Photos au fil du temps
photos_enlarge = Agrandir : { $photo }
photos_close = Fermer la photo
photos_remove = Retirer cette photo
photos_removed = Photo retirée.
photos_missing = La photo n’est pas encore arrivée.
photos_hint = Ou déposez-les ici, ou collez-les.
photos_chosen = Photo { $name }
photos_leave_out = Écarter { $name }
photos_saving = Enregistrement de la photo { $number } sur { $count }
photos_not_saved = { $count ->
    [one] { $count } photo n’a pas été enregistrée.
   *[other] { $count } photos n’ont pas été enregistrées.
}
photos_skip = Les écarter
photos_saved = { $count ->
    [one] Photo enregistrée.
   *[other] { $count } photos enregistrées.
}

## Une séance

sitting_save_title = Enregistrer cette séance
sitting_correct = Corriger une séance
sitting_lead = Saisissez ce que vous savez : minutes, duites ou longueur peuvent rester vides.
sitting_day = Jour
sitting_started = Commencée à
sitting_started_hint = Par exemple 19:40.
sitting_minutes = Minutes
sitting_minutes_hint = 40, ou 1{ "\u00A0" }h 10
sitting_use_minutes = J’ai tissé sans compter : prendre { $minutes } minutes
sitting_picks = Duites
sitting_picks_hint = Négatif si vous avez détissé plus que tissé.
sitting_length = Longueur tissée
sitting_length_hint = Jusqu’à la façure.
sitting_from = Mesurée depuis
sitting_from_start = la première duite
sitting_from_mark = le dernier repère
sitting_tension = La chaîne était
sitting_tight = sous tension
sitting_relaxed = relâchée
sitting_measured = { $tension ->
    [relaxed] { $from ->
        [mark] Mesurée depuis le dernier repère, chaîne relâchée
       *[start] Mesurée depuis la première duite, chaîne relâchée
    }
   *[tight] { $from ->
        [mark] Mesurée depuis le dernier repère, chaîne sous tension
       *[start] Mesurée depuis la première duite, chaîne sous tension
    }
}
sitting_mark_set = J’ai mis un repère à la façure
sitting_mark_hint = Épinglez-y un fil ou un ruban avant d’avancer la chaîne : la première duite disparaît sur l’ensouple, on mesure ensuite depuis le repère.
sitting_weft_left = Poids de la trame restante
sitting_weft_left_hint = Fil seul, sans navette ni tube.
sitting_not_beaten = La dernière duite n’est pas encore tassée
sitting_keep_weaving = Continuer à tisser
sitting_saved = Séance enregistrée.
sitting_corrected = Séance corrigée.

## Une chaîne

warp_start = Commencer une chaîne
warp_start_lead = Un nom et les chiffres que vous connaissez. Tout peut être modifié plus tard.
warp_start_this = Commencer cette chaîne
warp_started = Chaîne commencée.
warp_changed = Chaîne modifiée.
warp_name_hint = Le nom que vous lui donnez : « Chemin de table vert ».
warp_cloth = Chaîne et tissu
warp_wound = Longueur de chaîne
warp_wound_hint = Telle qu’ourdie, nœuds compris.
warp_waste = Perte de chaîne
warp_waste_hint = Devant et derrière ensemble : ce qui ne peut pas être tissé.
warp_wanted = Longueur voulue
warp_wanted_hint = { $unit ->
    [in] Pour chaque pièce. Si elles diffèrent : 70, 6, 6{ "\u00A0" }in.
   *[cm] Pour chaque pièce. Si elles diffèrent : 180, 15, 15{ "\u00A0" }cm.
}
warp_wanted_state = La longueur voulue est
warp_finished = finie, après lavage
warp_relaxed = hors du métier
warp_under_tension = sur le métier, sous tension
warp_picks = Duitage
warp_picks_hint = { $unit ->
    [in] Duites par pouce.
   *[cm] Duites aux 10{ "\u00A0" }cm.
}
warp_take_up = Embuvage
warp_take_up_before = 100{ "\u00A0" }{ $unit } de tissu sous tension prennent
warp_take_up_after = { $unit } de chaîne
warp_take_up_hint = Mesurez-le sur un échantillon, ou laissez vide.
warp_weft = Trame
warp_reed_width = Largeur au peigne
warp_yarn = Fil
warp_weft_allowance = Supplément de trame
warp_weft_allowance_hint = Ajouté à la largeur à chaque duite. Souvent 10.
warp_gift_day = À finir pour le
warp_gift_day_hint = Si la pièce doit être terminée un certain jour.
warp_sequence = Séquence de duites
warp_sequence_hint = Un rang par ligne : up (peigne en haut), down (peigne en bas), stick (baguette) ou up + stick. « stick » seul : peigne au repos, baguette sur chant. « 3 x up » fait trois rangs. Sur un autre métier, les numéros des foules.
warp_opening = Bordure de début
warp_repeat = Rapport
warp_balance = Duites d’équilibre
warp_closing = Bordure de fin
warp_more_pieces = Pièces, franges, retrait
warp_shrinkage = Retrait du métier au fini
warp_pieces = Pièces sur cette chaîne
warp_pieces_hint = Si vide : une, ou autant que de longueurs voulues.
warp_gap = Espace entre les pièces
warp_gap_hint = Sans compter leurs franges.
warp_fringe = Franges non tissées à chaque bout de chaque pièce
warp_fringe_from_waste = Les franges des extrémités sont prises sur la perte de chaîne
warp_days = Jours, et pour qui
warp_started_on = Commencée le
warp_days_a_week = Jours de tissage par semaine, environ
warp_minutes_a_day = Minutes de tissage par jour, environ
warp_weaving_days = Jours de tissage
warp_weaving_days_hint = « Sat, Sun » ou « weekends ». Si vide : comme le montrent vos séances.
warp_away_from = Absence du
warp_away_until = Absence jusqu’au
warp_every_day_until = Tissage chaque jour jusqu’au
warp_for_child = Pour un jeune enfant
warp_fibre = Fibre
warp_fibre_unset = non précisée
warp_fibre_cotton = coton
warp_fibre_linen = lin, chanvre
warp_fibre_cottolin = cottolin
warp_fibre_wool = laine
warp_fibre_silk = soie
warp_fibre_viscose = viscose, bambou
warp_fibre_acrylic = acrylique, nylon
warp_finish = Finition
warp_finish_washed = lavé
warp_finish_fulled = foulé
warp_weave = Armure
warp_weave_unset = non précisée
warp_weave_plain = toile
warp_weave_twill = sergé 2/2
warp_weave_pick_up = avec une baguette

## Modifier la séquence de duites

sequence_examples = Commencer par un exemple
sequence_example = Commencer par : { $name }
sequence_mirror = Refléter la bordure de début
sequence_stick = Fils de fente sur la baguette
sequence_stick_up = levés
sequence_stick_down = baissés entre deux
sequence_stick_edge = baissés à chaque bord
sequence_sheds = Foules numérotées : plusieurs peignes ou cadres
sequence_sheds_hint = Si les rangs sont des numéros de foules, indiquez ce que chaque foule lève, et le tissu peut être dessiné.
sequence_lifts = Ce que chaque foule lève, une foule par ligne : 1: 1 2
sequence_threading = Enfilage : cadre de chaque fil, un rapport
sequence_threading_hint = 1 2 3 4, ou 1-4. Si vide : enfilage suivi.
sequence_sett = Densité (peigne)
sequence_sett_hint = Les flottés sont dessinés à leur vraie longueur.
sequence_drawing = Le tissu obtenu
sequence_legend = La chaîne est foncée, la trame claire ; la première duite est en bas. Un long flotté est entouré.
sequence_row = { $row } ({ $section })
sequence_per_press = Un appui compte
sequence_one_pick = une duite
sequence_two_picks = deux duites, aller et retour

## Planifier

plan_title = Planifier une chaîne
plan_start_from = Partir de
plan_from_piece = De la pièce finie
plan_from_yarn = Du fil disponible
plan_already_warped = Déjà montée
plan_piece_lead = Saisissez la pièce voulue ; laissez vide ce que vous ne savez pas.
plan_yarn_lead = Saisissez le fil que vous avez, et voyez quelles pièces il donne.
plan_copy = Copier une chaîne précédente
plan_copied = Copié de { $name }.
plan_piece = Pièce finie
plan_length = Longueur
plan_length_hint = Après lavage, sans franges.
plan_width = Largeur
plan_width_hint = Après lavage.
plan_pieces = Pièces de cette taille
plan_further = Autres longueurs sur la même chaîne
plan_further_hint = { $unit ->
    [in] Dans l’ordre du tissage : 24{ "\u00A0" }in, 16{ "\u00A0" }in, ou 2 × 6{ "\u00A0" }in.
   *[cm] Dans l’ordre du tissage : 60{ "\u00A0" }cm, 40{ "\u00A0" }cm, ou 2 × 15{ "\u00A0" }cm.
}
plan_edge = Finition des bouts
plan_edge_none = aucune
plan_edge_fringe = franges
plan_edge_hem = ourlet
plan_edge_length = Franges ou ourlet à chaque bout
plan_edge_hint = Pour un ourlet, tout ce qui est replié.
plan_yarn = Votre fil
plan_one_yarn = Le même fil en chaîne et en trame
plan_warp_length = Fil de chaîne : longueur
plan_weft_length = Fil de trame : longueur
plan_yarn_length_hint = 240{ "\u00A0" }m, 260{ "\u00A0" }yd, about 240{ "\u00A0" }m. Ou donnez son poids.
plan_warp_weight = Fil de chaîne : poids
plan_weft_weight = Fil de trame : poids
plan_weight_hint = Avec le titre du fil plus bas.
plan_known_how = Comment le savez-vous ?
plan_measured = mesurée
plan_by_label = selon l’étiquette
plan_estimated = estimée
plan_finished_width = Largeur finie
plan_finished_width_hint = Saisissez-la, ou déplacez le point sur la courbe.
plan_or_length = Ou longueur finie
plan_or_length_hint = Si la largeur est vide : aussi large que le fil le permet.
plan_loom_width = Largeur de tissage de votre métier
plan_loom_width_hint = Au peigne.
plan_threads = Fils de chaîne et duites
plan_sett_hint = { $unit ->
    [in] Fils par pouce, ou comme sur le peigne : 40/10.
   *[cm] Fils aux 10{ "\u00A0" }cm, ou comme sur le peigne : 40/10.
}
plan_picks_hint = { $unit ->
    [in] Duites par pouce, sous tension.
   *[cm] Duites aux 10{ "\u00A0" }cm, sous tension.
}
plan_warp_size = Titre du fil de chaîne
plan_warp_size_hint = Comme sur l’étiquette : 400{ "\u00A0" }m/100{ "\u00A0" }g, 8/2 cotton, Nm 2/28.
plan_weft_size = Titre du fil de trame
plan_weft_size_hint = Si vide : celui du fil de chaîne.
plan_weft_name = Nom du fil de trame
plan_weft_name_hint = Les chaînes précédentes avec ce fil montrent ce qu’il en faut.
plan_find_sett = Trouver la densité par les tours ou le titre du fil
plan_wraps = Tours du fil de chaîne
plan_wraps_hint = { $unit ->
    [in] Enroulés côte à côte, comptés par pouce.
   *[cm] Enroulés côte à côte, comptés aux 10{ "\u00A0" }cm.
}
plan_k = Facteur d’Ashenhurst
plan_k_usual = 0,9, habituel
plan_k_soft = 0,84, fil souple
plan_k_cotton = 0,95, coton
plan_reed_width = Largeur au peigne, si vous la connaissez
plan_reed_width_hint = Remplace la largeur finie.
plan_loom = Métier et reste de la chaîne
plan_waste_hint = Devant et derrière ensemble, une fois par chaîne.
plan_header = Entame
plan_sample_first = Échantillon tissé d’abord
plan_changes = Embuvage, rétrécissement, retrait
plan_take_up_before = 100{ "\u00A0" }{ $unit } de tissu prennent
plan_take_up_of = Tissu mesuré
plan_shrinkage = Retrait en longueur
plan_relaxation = Relâchement hors du métier
plan_relaxation_hint = Si vide : aucun.
plan_draw_in = Rétrécissement au tissage
plan_width_shrinkage = Retrait en largeur
plan_sample = D’après un échantillon tissé
plan_sample_hint = Ce que vous avez mesuré remplit les champs vides ci-dessus.
plan_sample_warp = Chaîne utilisée
plan_sample_reed = Sa largeur au peigne
plan_sample_length = Sa longueur hors du métier
plan_sample_width = Sa largeur hors du métier
plan_sample_length_washed = Sa longueur après lavage
plan_sample_width_washed = Sa largeur après lavage
plan_days = Jours
plan_name_hint = Si vide : sa taille.
plan_result = Ce qu’il vous faut
plan_more_options = Autres possibilités
plan_use_offer = Utiliser
plan_rule_of_thumb = Règle approximative
plan_check_first = À vérifier d’abord
plan_saved_plans = Plans enregistrés
plan_save = Enregistrer le plan
plan_saved = Plan enregistré. Vous le retrouvez sous « Planifier », sur chaque appareil.
plan_new = Commencer un nouveau plan
plan_bring_back = Reprendre la saisie précédente
plan_remove_named = Retirer le plan { $name }
plan_removed = Plan retiré.
plan_waiting = { $count ->
    [one] { $count } plan pas encore commencé
   *[other] { $count } plans pas encore commencés
}
plan_curve = Largeur selon la longueur
plan_curve_width = largeur finie
plan_curve_length = longueur finie
plan_curve_knob = Largeur de la pièce
plan_curve_keys = Déplacez le point à la souris ou avec les flèches ; Échap le ramène. Zone hachurée : probable à 80{ "\u00A0" }%.

## Hors du métier

off_cut_title = Couper la chaîne
off_cut_lead = { $name }. Saisissez ce que vous savez maintenant ; le reste peut être mesuré plus tard.
off_cut_done = Chaîne coupée.
off_measure_title = Mesurer le tissu
off_all_pieces = Toutes les pièces ensemble, sans franges.
off_cut_on = Coupée le
off_cut_on_hint = Si vide : aujourd’hui. { day_hint }
off_before_washing = Hors du métier, avant lavage
off_length = Longueur hors du métier
off_length_hint = Posée à plat, sans étirer.
off_fell_width = Largeur à la façure
off_fell_width_hint = Sous tension, avant de couper.
off_width = Largeur hors du métier
off_rest = Reste de la chaîne
off_front = Devant
off_front_hint = Du début de la chaîne à la première duite, franges et nœuds compris.
off_thrums = Pennes
off_thrums_hint = De la dernière duite à la fin de la chaîne, franges comprises.
off_weft_over = Trame restante
off_after_washing = Après lavage
off_finished_length = Longueur
off_finished_width = Largeur
off_finished_weight = Poids
off_finished_weight_hint = Sec.
off_saved = Mesures enregistrées.
off_finishing = Finitions
off_step_done = { $name } : fait
off_step_add = Ajouter une étape
off_step = Étape de finition
off_step_name = Ce qu’il faut faire
off_step_on = Fait le
off_step_on_hint = Laissez vide tant que ce n’est pas fait. { day_hint }
off_step_saved = Étape enregistrée.
off_step_remove = Retirer cette étape
off_step_removed = Étape retirée.
off_planned_and_actual = Prévu et réel
off_figure = Grandeur
off_planned = Prévu
off_actual = Réel
off_difference = Écart
off_not_measured = Pas encore mesuré
off_measure = Mesurer
off_lessons = Ce que vos chaînes montrent
off_lessons_hint = Pour une chaîne comme celle-ci. Votre prochain plan peut en partir.
off_removed = Retirées

## Rythme

pace_table = Ce que chaque chaîne a demandé
pace_warp = Chaîne
pace_length = Longueur tissée
pace_hours = Temps au métier
pace_sittings = Séances
pace_days = Jours de la première duite au fini, ou jusqu’ici
pace_picks_per_hour = Duites par heure
pace_length_per_hour = Longueur par heure
pace_hours_per_length = Temps par longueur
pace_split = Séparer à
pace_do_split = Séparer
pace_as_table = Afficher en tableau
pace_as_table_named = { $chart } : afficher en tableau
pace_pictures = Où enregistrer les images
pace_save_picture = Enregistrer l’image
pace_save_picture_named = Enregistrer l’image : { $chart }

## Export et import

export_import = Export et import
export_import_back = Retour au dossier
export = Exporter
export_lead = Vos données, dans des fichiers que tout programme peut lire. Les valeurs sont métriques, avec l’unité dans l’en-tête.
export_folder = Enregistrer dans le dossier
export_folder_hint = Si vide : demandé à chaque fois.
export_tables = Tableaux pour un tableur
export_sittings = Séances
export_warps = Chaînes
export_wefts = Fils de trame
export_finishing = Étapes de finition
export_readings = Mesures et repères
export_weighings = Pesées
export_joins = Changements de fil
export_places = Positions dans la séquence
export_plans = Plans
export_photos = Photos
export_pace = Rythme
export_everything = Tout (JSON)
export_warp = Cette chaîne : { $name }
export_sheet = Fiche avec ses images
export_picture_png = Image de l’avancement (PNG)
export_picture_svg = Image de l’avancement (SVG)
import = Importer
import_lead = Séances ou chaînes précédentes d’un fichier CSV, ou, dans un dossier vide, un journal entier de «{ "\u00A0" }Tout (JSON){ "\u00A0" }». Vous voyez ce qui a été compris avant tout enregistrement, et une seule annulation retire tout.
import_choose_file = Choisir un fichier
import_contents = Contenu
import_guess = selon ses en-têtes
import_warp = Chaîne des lignes qui n’en nomment aucune
import_no_warp = aucune
import_columns = Colonnes
import_column = Sens de la colonne { $heading }
import_sample = par exemple { $text }
import_refused = Lignes impossibles à importer
import_line = Ligne { $line } :
import_reading = Lecture…
import_writing = Importation…
import_progress = Avancement
import_rows = { $done } lignes sur { $count }

## Dossier et réglages

folder_path = Emplacement
folder_status = État
folder_waiting = { $count ->
    [one] { $count } entrée n’est pour l’instant que sur cet appareil.
   *[other] { $count } entrées ne sont pour l’instant que sur cet appareil.
}
folder_write_back = Rétablir les entrées manquantes
folder_written_back = Entrées rétablies.
folder_mark = Marquer à nouveau ce dossier
folder_mark_question = Est-ce le bon dossier ?
folder_mark_warning = Toutes les entrées en attente seront enregistrées dans { $path }. C’est irréversible. Si un autre journal s’y trouve, choisissez plutôt un autre dossier.
folder_mark_confirm = Marquer ce dossier
folder_mark_cancel = Le laisser tel quel
folder_marked = Dossier marqué.
folder_problems = Problèmes de fichiers
folder_devices = Appareils
folder_this_device = cet appareil
folder_device_name = Nom de cet appareil
folder_name_saved = Nom enregistré.
folder_units = Unités de longueur
folder_metric = centimètres
folder_imperial = pouces
folder_weights = Unités de poids
folder_grams = grammes
folder_ounces = onces
folder_units_hint = Pour toutes les valeurs affichées, et pour les nombres saisis sans unité. Vous pouvez saisir toute unité.
folder_choose_another = Choisir un autre dossier
folder_close = Fermer ce dossier
folder_close_hint = Les fichiers restent où ils sont.
folder_close_sample_hint = Les données d’exemple sont supprimées.
folder_closed = Dossier fermé. Ses fichiers restent où ils sont.
folder_keys = Clavier
folder_keys_pick = Espace, Entrée, une lettre, une flèche, page précédente ou page suivante
folder_keys_pick_does = au tissage : compter une duite (aussi une pédale qui envoie une touche ; sous « Plus » vous pouvez choisir une seule touche)
folder_keys_back = Retour arrière, Suppr, −
folder_keys_back_does = au tissage : annuler une duite
folder_keys_not_beaten = Échap
folder_keys_not_beaten_does = au tissage : signaler une duite pas encore tassée ; encore une fois, ôter le signe
folder_keys_undo = Ctrl + Z
folder_keys_undo_does = annuler la dernière modification, sauf pendant la saisie
folder_keys_arrows = Flèches
folder_keys_arrows_does = image de la chaîne : d’une partie à l’autre ; Entrée ouvre une séance

## Guide et aide

guide = Guide
guide_and_about = Guide, et à propos de Fellmark
guide_contents = Sommaire
guide_next = Suite : { $title }
guide_untranslated = Cette page n’est pas encore traduite. La voici en anglais.
about = À propos de Fellmark
about_version = Version { $version }, logiciel libre sous licence MIT.
about_folder = Vos notes sont des fichiers dans un dossier à vous. Rien n’est envoyé nulle part.
about_cautions = Les mises en garde se trouvent là où est le risque. Elles ne remplacent pas les règles en vigueur chez vous.
about_licence = La licence
about_libraries = Les bibliothèques incluses ont leurs propres licences. Le paquet les énumère dans le fichier third-party-notices.
help_first_warp = Aide : la première chaîne
help_at_the_loom = Aide : au métier
help_plan_from_yarn = Aide : prévoir à partir du fil
help_off_the_loom = Aide : hors du métier
help_two_devices = Aide : deux appareils
help_backup = Aide : sauvegarder et restaurer
help_deleting = Aide : supprimer définitivement
help_figures = Aide : ce que signifie chaque chiffre

## Dates

day_today = aujourd’hui
day_yesterday = hier
day_pick = Choisir un jour
day_hint = Comme 2026-03-09, ou comme vous écrivez d’habitude une date.
day_month_before = Mois précédent
day_month_after = Mois suivant
