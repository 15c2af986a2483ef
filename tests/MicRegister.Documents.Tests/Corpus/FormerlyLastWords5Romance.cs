namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the fifth shapes that once were the last, in the Romance languages.</summary>
internal static class FormerlyLastWords5Romance
{
    public const string French = """
        Kind: Classe d'équipement|Sorte d'appareil|Article
        Maker: Produit par|Nom de la marque|Constr.
        Model: Désignation du type|Version|Variante
        Serial: N° de l'exemplaire|Matricule constructeur|N° sér.
        Code: Identifiant d'inventaire|Notre réf.|Étiquette
        Status: Aptitude au service|Utilisable ?|Comment ça va
        Place: Endroit de rangement|Où se trouve|Étagère / salle
        Day: Étalonné (date)|Dernier étal. du|Étalonnage du
        Value: Sensibilité en pression|Sensibilité trouvée|S (mesurée)
        Level: Niveau engendré|Son, mesuré|Niveau de pression trouvé
        Result: Constat|Lecture à l'étalonnage|Valeur trouvée
        U: Incertitude, élargie|Incertit.|+/-
        Lab: Effectué par (labo)|Maison d'étalonnage|Où étalonné
        Number: Référence du certificat|N° du rapport d'étal.|N° du papier
        Hz: Fréquence utilisée|Étalonné à|Fréq.
        Due: Valable jusqu'au|Réétalonner avant le|Rappel
        Unit: Exprimé en|Unité de la valeur|Dim.
        Remark: Observations|Bon à savoir|Mémo
        OneMicrophone: Microphone de mesurage|Micro
        ManyMicrophone: Microphones de mesurage|Micros
        OnePreamplifier: Pré-amplificateur de micro|Pré-ampli
        OneCalibrator: Calibreur de terrain|Calibreur (son)
        ManyCalibrator: Calibreurs de terrain
        InService: opérationnel|apte au service|en bon état
        Away: chez un emprunteur|parti en réétalonnage|prêté
        OutOfService: inapte au service|en réparation|fichu
        Lost: sort inconnu|absent à l'inventaire|envolé
        Retired: mis hors parc|mis au rebut|vendu
        Stations: Stations
        StationsTitle: Équipement des stations de mesure
        Station: Station
        Site: Lieu-dit
        Fitted: Monté le
        InCharge: Personne chargée
        Phone: Poste tél.
        ResultAndDay: Dernier résultat (date)
        Booking: Réservation
        Booked: réservé
        Free: libre
        Item: N°
        Quantity: Qté
        Weight: Poids (kg)
        Tariff: N° tarifaire douanier
        Origin: Pays d'origine
        Insured: Valeur assurée (EUR)
        Interval: Périodicité (mois)
        How: Type d'étalonnage
        Internal: interne
        External: externe
        Target: Valeur visée
        Deviation: Écart
        Tolerance: Écart admis
        Verdict: Conclusion
        Pass: conforme
        Contents: Contenu
        Case: Caisse
        Pieces: Pièces
        Slot: Alvéole
        Packed: Emballé
        Sign: Paraphe
        Kit: Notre matériel
        MakerAndType: Marque et type
        Paid: Prix payé (EUR)
        OnPolicy: Au contrat d'assurance
        Yes: oui
        No: non
        BookTitle: Livre des biens au
        Line: Ligne
        PartNo: N° de nomenclature
        Issue: Unité de compte
        Piece: pce
        Condition: Code d'état
        Bought: Année d'achat
        Obliged: Étalonnage obligatoire
        Book: Étalonnages reçus
        Before: Valeur d'avant
        Now: Nouvelle valeur
        Moved: Évolution
        LentTo: Prêté à
        OutSince: Sorti depuis le
        BackBy: À rendre le
        LastSeen: Vu pour la dernière fois
        Rule: Qui emprunte rapporte propre et sec.
        """;

    public const string Spanish = """
        Kind: Clase de equipamiento|Qué aparato|Artículo
        Maker: Producido por|Nombre de marca|Constr.
        Model: Designación de tipo|Versión|Variante
        Serial: N.º de ejemplar|Matrícula de fábrica|N.º ser.
        Code: Identificador de inventario|Nuestra ref.|Etiqueta
        Status: Aptitud de uso|¿Sirve?|Cómo está
        Place: Sitio de almacenaje|Paradero|Estante / sala
        Day: Calibrado (fecha)|Última cal. del|Calibración del
        Value: Sensibilidad a presión|Sensibilidad hallada|S (medida)
        Level: Nivel generado|Tono, medido|Nivel de presión hallado
        Result: Resultado hallado|Lectura en calibración|Valor hallado
        U: Incertidumbre, expandida|Incert.|+/-
        Lab: Realizado por (lab.)|Casa calibradora|Dónde se calibró
        Number: Referencia del certificado|N.º de informe de cal.|N.º de papel
        Hz: Frecuencia usada|Calibrado a|Frec.
        Due: Válido hasta|Recalibrar antes de|Aviso
        Unit: Expresado en|Unidad del valor|Dim.
        Remark: Observaciones|Conviene saber|Memo
        OneMicrophone: Micrófono de medir|Micro
        ManyMicrophone: Micrófonos de medir|Micros
        OnePreamplifier: Pre-amplificador de micrófono|Previo
        OneCalibrator: Calibrador de campo|Calibrador (sonido)
        ManyCalibrator: Calibradores de campo
        InService: operativo|apto para el uso|bien
        Away: en manos de un prestatario|fuera por recalibración|prestado
        OutOfService: no apto para el uso|en reparación|roto
        Lost: en paradero desconocido|no hallado en el inventario|desaparecido
        Retired: dado de baja|desechado|vendido
        Stations: Estaciones
        StationsTitle: Equipamiento de las estaciones de medida
        Station: Estación
        Site: Paraje
        Fitted: Montado el
        InCharge: Persona encargada
        Phone: Extensión tel.
        ResultAndDay: Último resultado (fecha)
        Booking: Reserva
        Booked: reservado
        Free: libre
        Item: N.º
        Quantity: Cant.
        Weight: Peso (kg)
        Tariff: Partida arancelaria
        Origin: País de origen
        Insured: Valor asegurado (EUR)
        Interval: Periodicidad (meses)
        How: Tipo de calibración
        Internal: interna
        External: externa
        Target: Valor objetivo
        Deviation: Desviación
        Tolerance: Desviación admitida
        Verdict: Conclusión
        Pass: apto
        Contents: Contenido
        Case: Maleta
        Pieces: Piezas
        Slot: Hueco
        Packed: Metido
        Sign: Visto bueno
        Kit: Nuestro equipo
        MakerAndType: Marca y tipo
        Paid: Precio pagado (EUR)
        OnPolicy: En la póliza
        Yes: sí
        No: no
        BookTitle: Libro de bienes a fecha de
        Line: Línea
        PartNo: N.º de catálogo de material
        Issue: Unidad de entrega
        Piece: ud.
        Condition: Código de estado
        Bought: Año de compra
        Obliged: Calibración obligatoria
        Book: Calibraciones recibidas
        Before: Valor de antes
        Now: Valor nuevo
        Moved: Cambio
        LentTo: Prestado a
        OutSince: Fuera desde
        BackBy: Devolver el
        LastSeen: Visto por última vez
        Rule: Quien lo toma prestado lo devuelve limpio y seco.
        """;

    public const string Italian = """
        Kind: Classe di apparecchiatura|Che cosa è|Articolo
        Maker: Prodotto da|Nome del marchio|Costr.
        Model: Designazione del tipo|Versione|Variante
        Serial: N. di esemplare|Matricola di fabbrica|N. ser.
        Code: Identificativo di inventario|Nostro rif.|Cartellino
        Status: Idoneità all'uso|Si può usare?|Come sta
        Place: Posto di deposito|Dove si trova|Scaffale / sala
        Day: Tarato (data)|Ultima tar. del|Taratura del
        Value: Sensibilità in pressione|Sensibilità trovata|S (misurata)
        Level: Livello generato|Tono, misurato|Livello di pressione trovato
        Result: Riscontro|Lettura in taratura|Valore trovato
        U: Incertezza, estesa|Incert.|+/-
        Lab: Eseguito da (lab.)|Casa di taratura|Dove tarato
        Number: Riferimento del certificato|N. del rapporto di tar.|N. foglio
        Hz: Frequenza usata|Tarato a|Freq.
        Due: Valido fino al|Ritarare entro|Richiamo
        Unit: Espresso in|Unità del valore|Dim.
        Remark: Osservazioni|Da sapere|Promemoria
        OneMicrophone: Microfono da misura|Micro
        ManyMicrophone: Microfoni da misura|Micro
        OnePreamplifier: Pre-amplificatore per microfono|Pre-ampli
        OneCalibrator: Calibratore da campo|Calibratore (suono)
        ManyCalibrator: Calibratori da campo
        InService: operativo|idoneo|a posto
        Away: presso chi lo ha in prestito|via per ritaratura|prestato
        OutOfService: non idoneo|in riparazione|rotto
        Lost: irreperibile|non trovato all'inventario|sparito
        Retired: dismesso|buttato|venduto
        Stations: Stazioni
        StationsTitle: Dotazione delle stazioni di misura
        Station: Stazione
        Site: Località
        Fitted: Montato il
        InCharge: Incaricato
        Phone: Interno tel.
        ResultAndDay: Ultimo risultato (data)
        Booking: Prenotazione
        Booked: prenotato
        Free: libero
        Item: N.
        Quantity: Q.tà
        Weight: Peso (kg)
        Tariff: Voce doganale
        Origin: Paese d'origine
        Insured: Valore assicurato (EUR)
        Interval: Periodicità (mesi)
        How: Tipo di taratura
        Internal: interna
        External: esterna
        Target: Valore obiettivo
        Deviation: Scostamento
        Tolerance: Scostamento ammesso
        Verdict: Conclusione
        Pass: conforme
        Contents: Contenuto
        Case: Valigia
        Pieces: Pezzi
        Slot: Scomparto
        Packed: Imballato
        Sign: Sigla
        Kit: La nostra attrezzatura
        MakerAndType: Marca e tipo
        Paid: Prezzo pagato (EUR)
        OnPolicy: In polizza
        Yes: sì
        No: no
        BookTitle: Libro dei beni al
        Line: Riga
        PartNo: N. di nomenclatura
        Issue: Unità di conto
        Piece: pz
        Condition: Codice di stato
        Bought: Anno di acquisto
        Obliged: Taratura obbligatoria
        Book: Tarature ricevute
        Before: Valore di prima
        Now: Valore nuovo
        Moved: Variazione
        LentTo: Prestato a
        OutSince: Fuori dal
        BackBy: Da rendere entro
        LastSeen: Visto l'ultima volta
        Rule: Chi prende in prestito riporta pulito e asciutto.
        """;
}
