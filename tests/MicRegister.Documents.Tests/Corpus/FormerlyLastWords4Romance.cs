namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the fourth shapes that once were the last, in the Romance languages.</summary>
internal static class FormerlyLastWords4Romance
{
    public const string French = """
        Kind: Nature du matériel|Catégorie d'appareil|Quoi
        Maker: Entreprise fabricante|Firme|Fab.
        Model: Type du fabricant|Modèle (réf.)|Mod.
        Serial: Numéro de fabrication|N° de fab.|SN appareil
        Code: Code d'inventaire|Matricule interne|Inv. n°
        Status: État de fonctionnement|Usage|Dispo.
        Place: Lieu d'utilisation|Où|Rangement
        Size: Taille de la capsule|Diamètre capsule|Pouces
        Day: Date du plus récent étalonnage|Étalonné|Étal. le
        Value: Sensibilité du microphone|Sens. mesurée|Sens. micro
        Level: Niveau de pression acoustique délivré|Niveau délivré|SPL en sortie
        Result: Résultat de l'étalonnage|Valeur étalonnée|Val. mes.
        U: Incertitude du résultat|Incert.|Inc.
        K: Coefficient d'élargissement (k)|coeff. k
        Lab: Laboratoire ayant étalonné|Labo d'étalonnage|Étal. chez
        Number: Numéro du certificat d'étalonnage|Certif. n°|N° CE
        Hz: Fréquence de l'étalonnage|Fréq. d'essai|Fréq.
        Pressure: Pression de l'air|Baromètre|Press.
        Temperature: Température de l'air ambiant|Temp. air|Temp
        Humidity: Humidité de l'air|HR air|HR
        Due: Date du prochain étalonnage|Prochain étal.|À refaire avant
        Unit: Unité du résultat|Unité employée|Un.
        Remark: Remarques complémentaires|Divers|Rem.
        OneMicrophone: Capsule microphonique|Micro de mesure
        ManyMicrophone: Capsules microphoniques|Micros de mesure
        OnePreamplifier: Préamplificateur microphonique|Préamp micro
        OneCalibrator: Calibreur de niveau sonore|Calibr.
        ManyCalibrator: Calibreurs de niveau sonore|Calibr.
        InService: en utilisation courante|marche|bon
        Away: envoyé à l'étalonnage|chez le client|sorti
        OutOfService: inutilisable|ne marche plus|à réparer
        Lost: porté manquant|on ne le trouve plus|disparu
        Retired: sorti du parc|à la casse|jeté
        AirTitle: surveillance du bruit des avions
        AsOfDay: Arrêté au
        Row: N° d'ordre
        DaysLeft: Jours restants
        Spare: Appareil de réserve
        Yes: oui
        No: non
        Stock: Parc de location
        Barcode: Code-barres
        DayRate: Par jour (EUR)
        WeekRate: Par semaine (EUR)
        NewValue: Valeur de remplacement (EUR)
        Accessories: Accessoires
        Windscreen: bonnette
        CarryCase: mallette
        Terms: Conditions
        Term1: Prix hors TVA. Durée minimale de location : un jour.
        Term2: Le locataire répond des pertes et des dommages.
        SubNo: Sous-numéro
        Class: Classe d'actif
        AcqDate: Date d'acquisition
        AcqValue: Valeur d'acquisition (EUR)
        BookValue: Valeur comptable (EUR)
        Life: Durée d'usage (années)
        Supplier: Fournisseur
        OrderNo: N° de commande
        Holder: Unité détentrice
        Stocktaken: Dernier récolement
        Funding: Origine des fonds
        Schedule: Programme d'étalonnage
        Section: Section
        Booked: Rendez-vous pris
        Checks: Contrôles de terrain
        Weather: Météo
        Dry: sec
        Windy: venteux
        ToDo: À faire
        ToDo1: commander des piles
        ToDo2: se renseigner sur les nouvelles bonnettes
        ToDo3: ranger le tiroir des câbles
        Subtotal: Sous-total
        CertRegister: Certificats classés
        IssuedOn: Délivré le
        Pages: Pages
        FileName: Fichier
        Forms: Fiches
        Form: Fiche d'appareil
        Signature: Signature
        Position: Position
        Loose: Pièces isolées
        """;

    public const string Spanish = """
        Kind: Clase de equipo|Clase de aparato|Qué es
        Maker: Empresa fabricante|Firma|Fab.
        Model: Tipo del fabricante|Modelo (ref.)|Mod.
        Serial: Número de fabricación|N.º fab.|Serie n.º
        Code: Código de inventario|Código patrimonial|Cód. inv.
        Status: Estado de funcionamiento|Uso|Dispon.
        Place: Lugar de uso|Dónde está|Ubic.
        Size: Tamaño de la cápsula|Diámetro cápsula|Pulgadas
        Day: Fecha de calibración más reciente|Calibrado|Cal. el
        Value: Sensibilidad microfónica|Sens. medida|Sens. micro
        Level: Nivel de presión sonora emitido|Nivel emitido|SPL de salida
        Result: Resultado de la calibración|Valor calibrado|Val. med.
        U: Incertidumbre del resultado|Incert.|Inc.
        K: Coeficiente de cobertura (k)|factor k
        Lab: Laboratorio que calibró|Labo. de cal.|Cal. en
        Number: Número de certificado de calibración|Certif. n.º|N.º CC
        Hz: Frecuencia de la calibración|Frec. de ensayo|Frec.
        Pressure: Presión del aire|Barómetro|Pres.
        Temperature: Temperatura del aire ambiente|Temp. aire|Temp
        Humidity: Humedad del ambiente|HR aire|HR
        Due: Fecha de la próxima calibración|Próxima cal.|Toca calibrar
        Unit: Unidad del resultado|Unidad usada|Ud.
        Remark: Observaciones complementarias|Varios|Obs.
        OneMicrophone: Cápsula microfónica|Micro de medida
        ManyMicrophone: Cápsulas microfónicas|Micros de medida
        OnePreamplifier: Preamplificador para micrófono|Previo micro
        OneCalibrator: Calibrador de nivel sonoro|Calibr.
        ManyCalibrator: Calibradores de nivel sonoro|Calibr.
        InService: en uso habitual|funciona|bien
        Away: enviado a calibrar|con el cliente|fuera
        OutOfService: inservible|ya no funciona|por reparar
        Lost: dado por extraviado|no aparece|no se encuentra
        Retired: retirado del inventario|a la chatarra|tirado
        AirTitle: vigilancia del ruido de aviones
        AsOfDay: Situación al
        Row: N.º de orden
        DaysLeft: Días restantes
        Spare: Equipo de reserva
        Yes: sí
        No: no
        Stock: Parque de alquiler
        Barcode: Código de barras
        DayRate: Por día (EUR)
        WeekRate: Por semana (EUR)
        NewValue: Valor de reposición (EUR)
        Accessories: Accesorios
        Windscreen: paraviento
        CarryCase: maletín
        Terms: Condiciones
        Term1: Precios sin IVA. Alquiler mínimo: un día.
        Term2: El arrendatario responde de pérdidas y daños.
        SubNo: Subnúmero
        Class: Clase de activo
        AcqDate: Fecha de adquisición
        AcqValue: Valor de adquisición (EUR)
        BookValue: Valor contable (EUR)
        Life: Vida útil (años)
        Supplier: Proveedor
        OrderNo: N.º de pedido
        Holder: Unidad tenedora
        Stocktaken: Último recuento
        Funding: Origen de fondos
        Schedule: Programa de calibraciones
        Section: Sección
        Booked: Cita reservada
        Checks: Controles de campo
        Weather: Tiempo
        Dry: seco
        Windy: ventoso
        ToDo: Pendiente
        ToDo1: pedir pilas
        ToDo2: preguntar por los nuevos paravientos
        ToDo3: ordenar el cajón de los cables
        Subtotal: Subtotal
        CertRegister: Certificados archivados
        IssuedOn: Expedido el
        Pages: Páginas
        FileName: Archivo
        Forms: Fichas
        Form: Ficha de equipo
        Signature: Firma del responsable
        Position: Posición
        Loose: Piezas sueltas
        """;

    public const string Italian = """
        Kind: Natura dello strumento|Genere di apparecchio|Cos'è
        Maker: Azienda costruttrice|Ditta|Costr.
        Model: Tipo del costruttore|Modello (rif.)|Mod.
        Serial: Numero di fabbricazione|N. fabbr.|Matr.
        Code: Codice inventariale|Codice di casa|Cod. inv.
        Status: Stato di funzionamento|Impiego|Disp.
        Place: Luogo d'impiego|Dove|Ubicaz.
        Size: Misura della capsula|Diametro capsula|Pollici
        Day: Data di taratura più recente|Tarato|Tar. il
        Value: Sensibilità microfonica|Sens. misurata|Sens. mic.
        Level: Livello di pressione sonora emesso|Livello emesso|SPL in uscita
        Result: Risultato della taratura|Valore tarato|Val. mis.
        U: Incertezza del risultato|Incert.|Inc.
        K: Coefficiente di copertura (k)|fattore k
        Lab: Laboratorio esecutore|Lab. di taratura|Tar. presso
        Number: Numero del certificato di taratura|Certif. n.|N. CT
        Hz: Frequenza della taratura|Freq. di prova|Freq.
        Pressure: Pressione dell'aria|Barometro|Press.
        Temperature: Temperatura dell'aria ambiente|Temp. aria|Temp
        Humidity: Umidità ambiente|UR aria|UR
        Due: Data della prossima taratura|Prossima tar.|Da rifare entro
        Unit: Unità del risultato|Unità usata|U.M.
        Remark: Osservazioni aggiuntive|Varie|Oss.
        OneMicrophone: Capsula microfonica|Microfono da misura
        ManyMicrophone: Capsule microfoniche|Microfoni da misura
        OnePreamplifier: Preamplificatore da microfono|Preampli mic
        OneCalibrator: Calibratore di livello acustico|Calibr.
        ManyCalibrator: Calibratori di livello acustico|Calibr.
        InService: in uso corrente|funziona|va bene
        Away: inviato in taratura|dal cliente|fuori sede
        OutOfService: inutilizzabile|rotto|da riparare
        Lost: dato per disperso|non si trova|sparito
        Retired: tolto dal parco|buttato via|alienato
        AirTitle: sorveglianza del rumore aereo
        AsOfDay: Situazione del
        Row: N. d'ordine
        DaysLeft: Giorni restanti
        Spare: Strumento di riserva
        Yes: sì
        No: no
        Stock: Parco noleggio
        Barcode: Codice a barre
        DayRate: Al giorno (EUR)
        WeekRate: Alla settimana (EUR)
        NewValue: Valore di sostituzione (EUR)
        Accessories: Accessori
        Windscreen: cuffia antivento
        CarryCase: valigetta
        Terms: Condizioni
        Term1: Prezzi senza IVA. Noleggio minimo: un giorno.
        Term2: Il noleggiatore risponde di perdite e danni.
        SubNo: Sottonumero
        Class: Classe di bene
        AcqDate: Data di acquisizione
        AcqValue: Valore di acquisizione (EUR)
        BookValue: Valore contabile (EUR)
        Life: Vita utile (anni)
        Supplier: Fornitore
        OrderNo: N. d'ordine di acquisto
        Holder: Unità detentrice
        Stocktaken: Ultima ricognizione
        Funding: Origine dei fondi
        Schedule: Programma delle tarature
        Section: Sezione
        Booked: Appuntamento fissato
        Checks: Controlli sul campo
        Weather: Meteo
        Dry: asciutto
        Windy: ventoso
        ToDo: Da fare
        ToDo1: ordinare le batterie
        ToDo2: chiedere delle nuove cuffie antivento
        ToDo3: riordinare il cassetto dei cavi
        Subtotal: Totale parziale
        CertRegister: Certificati archiviati
        IssuedOn: Rilasciato il
        Pages: Pagine
        FileName: File
        Forms: Schede
        Form: Scheda strumento
        Signature: Firma
        Position: Posizione
        Loose: Pezzi singoli
        """;
}
