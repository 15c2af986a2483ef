namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the sixth shapes that once were the last, in the Romance languages.</summary>
internal static class FormerlyLastWords6Romance
{
    public const string French = """
        Kind: Désignation|Désignation de l'équipement|Type d'appareil|Instrument
        Maker: Fabricant|Marque|Constructeur / marque|Fabr.
        Model: Modèle / type|Type|Réf. constructeur|Modèle
        Serial: N° de série constructeur|N° série|Numéro série|S/N
        Code: Code équipement|N° d'identification|Repère|Identifiant
        Status: État de l'équipement|Utilisable|Statut d'utilisation|Situation
        Place: Localisation|Salle / armoire|Rangé dans|Lieu d'affectation
        Size: Taille de capsule|Diamètre nominal|Dim. capsule
        Day: Date dernier étalonnage|Étalonné en date du|Date étal.|Dernier étal.
        Value: Sensibilité étalonnée|Sensibilité certificat|Sensib.|Efficacité en circuit ouvert
        Level: Niveau étalonné|Niveau délivré|Niveau certificat
        Result: Résultat d'étalonnage|Valeur étalonnée|Valeur mesurée|Valeur du certificat
        U: Incertitude élargie U|Inc. élargie|Inc.|Incertitude d'étalonnage
        Lab: Laboratoire d'étalonnage|Prestataire|Étalonné par|Organisme
        Number: N° certificat d'étalonnage|N° CE|Certificat n°|Réf. certificat
        Hz: Fréquence d'étalonnage|Fréq. d'essai|Fréquence de mesure
        Pressure: Pression ambiante|Pression baro.|Pression de l'air
        Temperature: Température ambiante|Temp. air|T
        Humidity: Humidité ambiante|Hum. rel.|HR
        Due: Date prochain étalonnage|À étalonner avant le|Échéance étal.|Fin de validité
        Unit: Unité de mesure|Un.|Unité résultat
        Remark: Commentaires|Obs.|Remarques / état
        OneMicrophone: Microphone à condensateur|Micro|Microphone champ libre
        ManyMicrophone: Microphones à condensateur|Micros
        OnePreamplifier: Préamplificateur microphonique|Préampli
        ManyPreamplifier: Préamplificateurs microphoniques
        OneCalibrator: Calibreur de niveau sonore|Source étalon|Calibreur
        ManyCalibrator: Calibreurs de niveau sonore|Calibreurs
        OnePistonphone: Pistonphone|Piston-phone
        OnePlate: Plaque de sol|Plaque réfléchissante au sol
        OneChannel: Voie d'acquisition|Voie enregistreur
        InService: en service|disponible|utilisable
        Away: en location|parti à l'étalonnage|chez le prestataire
        OutOfService: hors service|à l'atelier|en panne
        Lost: manquant|non retrouvé|disparu
        Retired: réformé|sorti de l'inventaire|éliminé
        FormTitle: Liste des équipements de mesure et d'essai
        Form: Formulaire
        Revision: Révision
        Approved: Approuvé
        Interval: Périodicité [mois]
        NotDue: sans objet
        NoteGrid: grille cabossée
        NoteBox: boîte manquante
        With: Actuellement chez
        SensLevel: Niveau de sensibilité
        Plug: Connecteur
        Pins: 7 broches
        Others: Divers
        Loans: Prêts
        LoanHeads: Quoi,Emprunteur,Sorti le,Rendu le
        Entry: N° d'ordre
        Object: Objet étalonné
        Reviewed: Vérifié par
        Filed: Classé dans
        Folder: Classeur
        SensLog: Suivi de sensibilité des microphones de mesure
        Time: Heure
        Reference: Vérifié avec
        Change: Écart / précédent
        Operator: Opérateur
        Fields: ID,NumInv,TypeAppareil,Fabricant,Modele,NumSerie,Salle,Etat
        MoreFields: EtalOblig,DernierEtal,ProchainEtal,NumCertif,ValeurEtal,UniteEtal,Remarque,ModifieLe
        Obliged: Étal. obligatoire
        Changed: Modifié le
        Stock: Parc locatif
        ItemNo: Code article
        Pieces: Qté
        Rate: Tarif jour EUR
        Round: Campagne annuelle d'étalonnage
        YearBefore: an passé
        By: visa
        ShortModel: Type
        ShortSerial: N° série
        ShortDay: Date
        Planner: Planning d'étalonnage
        Section: Service
        Ordered: Commandé
        Yes: oui
        Legend: x = mois d'échéance de l'étalonnage
        Annex: Annexe
        AnnexTitle: équipements soumis à étalonnage
        AsOn: Mise à jour du
        Keeper: Dépositaire
        Standards: Étalons de référence et de travail
        Nominal: Valeur nominale
        Traceable: Raccordement (laboratoire)
        Use: Utilisation
        UseReference: référence
        UseWorking: étalon de travail
        """;

    public const string Spanish = """
        Kind: Descripción|Denominación del equipo|Tipo de instrumento|Instrumento
        Maker: Fabricante|Marca|Marca / fabricante|Fabr.
        Model: Modelo|Modelo / tipo|Tipo|Mod.
        Serial: Nº serie (fabricante)|N/S|Núm. de serie|Nº de fábrica
        Code: Código de equipo|Código interno|Identificación|Id.
        Status: Estado del equipo|Apto|Situación|Estado de uso
        Place: Ubicación habitual|Sala / armario|Guardado en|Lugar
        Size: Tamaño de cápsula|Diámetro nominal|Diám.
        Day: Fecha última calibración|F. calibración|Calibrado con fecha|Últ. cal.
        Value: Sensibilidad calibrada|Sensibilidad cert.|Sens.|Sensibilidad en circuito abierto
        Level: Nivel calibrado|Nivel generado|Nivel certificado
        Result: Resultado de calibración|Valor certificado|Valor medido|Valor de cal.
        U: Incertidumbre expandida U|Inc. expandida|Inc.|Incert. de calibración
        Lab: Laboratorio de calibración|Entidad calibradora|Calibrado por|Lab. externo
        Number: Nº certificado de calibración|Nº certif.|Certificado nº|Ref. certificado
        Hz: Frecuencia de calibración|Frec. de ensayo|Frecuencia de medida
        Pressure: Presión ambiente|Presión barométrica|Pres. atm.
        Temperature: Temperatura ambiente|Temp. aire|T
        Humidity: Humedad ambiente|Hum. rel.|HR
        Due: Fecha próxima calibración|Calibrar antes del|Próx. cal.|Caducidad
        Unit: Unidad de medida|Ud. medida|Unidad resultado
        Remark: Comentarios|Obs.|Notas / estado
        OneMicrophone: Micrófono de condensador|Micro|Micrófono de campo libre
        ManyMicrophone: Micrófonos de condensador|Micros
        OnePreamplifier: Preamplificador microfónico|Previo
        ManyPreamplifier: Preamplificadores microfónicos
        OneCalibrator: Calibrador de nivel sonoro|Fuente de calibración|Calibrador
        ManyCalibrator: Calibradores de nivel sonoro|Calibradores
        OnePistonphone: Pistófono|Pistonófono
        OnePlate: Placa de suelo|Plancha de suelo
        OneChannel: Canal de adquisición|Canal de grabadora
        InService: en servicio|disponible|apto
        Away: alquilado|enviado a calibrar|en laboratorio externo
        OutOfService: fuera de servicio|en taller|no apto
        Lost: falta|no localizado|sin localizar
        Retired: baja|dado de baja|eliminado
        FormTitle: Listado de equipos de medida y ensayo
        Form: Formato
        Revision: Revisión
        Approved: Aprobado
        Interval: Periodo cal. [meses]
        NotDue: no aplica
        NoteGrid: rejilla abollada
        NoteBox: falta estuche
        With: Lo tiene
        SensLevel: Nivel de sensibilidad
        Plug: Conector
        Pins: 7 pines
        Others: Otros
        Loans: Préstamos
        LoanHeads: Qué,Quién,Salida,Devuelto
        Entry: Nº orden
        Object: Elemento calibrado
        Reviewed: Revisado por
        Filed: Archivado en
        Folder: Carpeta
        SensLog: Registro de sensibilidad de micrófonos de medida
        Time: Hora
        Reference: Comprobado con
        Change: Variación / anterior
        Operator: Técnico
        Fields: ID,NumInv,TipoEquipo,Fabricante,Modelo,NumSerie,Sala,Estado
        MoreFields: CalOblig,UltimaCal,ProximaCal,NumCertif,ValorCal,UnidadCal,Observacion,ModificadoEl
        Obliged: Cal. obligatoria
        Changed: Modificado el
        Stock: Material de alquiler
        ItemNo: Cód. artículo
        Pieces: Uds.
        Rate: Tarifa día EUR
        Round: Calibración anual
        YearBefore: año anterior
        By: quién
        ShortModel: Modelo
        ShortSerial: N/S
        ShortDay: Fecha
        Planner: Planificación de calibraciones
        Section: Dpto.
        Ordered: Pedido hecho
        Yes: sí
        Legend: x = mes en que vence la calibración
        Annex: Anexo
        AnnexTitle: equipos sujetos a calibración
        AsOn: Actualizado a
        Keeper: Depositario
        Standards: Patrones de referencia y de trabajo
        Nominal: Valor nominal
        Traceable: Trazabilidad (laboratorio)
        Use: Uso
        UseReference: referencia
        UseWorking: patrón de trabajo
        """;

    public const string Italian = """
        Kind: Descrizione|Denominazione|Tipo di strumento|Apparecchiatura
        Maker: Costruttore|Marca|Produttore / marca|Costr.
        Model: Modello / tipo|Tipo|Mod.|Modello costruttore
        Serial: Matricola costruttore|N° di serie|Matr.|S/N
        Code: Codice strumento|Codice interno|Identificazione|ID
        Status: Stato dello strumento|Utilizzabile|Stato d'uso|Situazione
        Place: Ubicazione abituale|Locale / armadio|Riposto in|Posizione
        Size: Dimensione capsula|Diametro nominale|Diam.
        Day: Data ultima taratura|Tarato in data|Data tar.|Ult. taratura
        Value: Sensibilità da certificato|Sensibilità tarata|Sens.|Sensibilità a circuito aperto
        Level: Livello da certificato|Livello tarato|Livello erogato
        Result: Risultato di taratura|Valore da certificato|Valore misurato|Valore di taratura
        U: Incertezza estesa U|Inc. estesa|Inc.|Incertezza di taratura
        Lab: Laboratorio di taratura|Ente di taratura|Tarato da|Centro
        Number: N° certificato di taratura|N° certif.|Certificato n°|Rif. certificato
        Hz: Frequenza di taratura|Freq. di prova|Frequenza di misura
        Pressure: Pressione ambiente|Pressione barometrica|Press. atm.
        Temperature: Temperatura ambiente|Temp. aria|T
        Humidity: Umidità ambiente|Um. rel.|UR
        Due: Data prossima taratura|Da tarare entro|Scad. taratura|Scadenza validità
        Unit: Unità di misura|U.M.|Unità risultato
        Remark: Commenti|Note / stato|Annotazioni
        OneMicrophone: Microfono a condensatore|Micro|Microfono campo libero
        ManyMicrophone: Microfoni a condensatore|Micro
        OnePreamplifier: Preamplificatore microfonico|Preampli
        ManyPreamplifier: Preamplificatori microfonici
        OneCalibrator: Calibratore di livello sonoro|Calibratore per microfoni|Calibratore
        ManyCalibrator: Calibratori di livello sonoro|Calibratori
        OnePistonphone: Pistonofono|Pistofono
        OnePlate: Piastra da terra|Piastra riflettente a terra
        OneChannel: Canale di acquisizione|Canale registratore
        InService: in servizio|disponibile|idoneo all'uso
        Away: noleggiato|inviato in taratura|presso ente esterno
        OutOfService: fuori servizio|in officina|guasto
        Lost: mancante|non reperibile|disperso
        Retired: alienato|scaricato dall'inventario|eliminato
        FormTitle: Elenco apparecchiature di misura e prova
        Form: Modulo
        Revision: Revisione
        Approved: Approvato
        Interval: Periodicità [mesi]
        NotDue: non prevista
        NoteGrid: griglia ammaccata
        NoteBox: manca astuccio
        With: Ora presso
        SensLevel: Livello di sensibilità
        Plug: Connettore
        Pins: 7 poli
        Others: Varie
        Loans: Prestiti
        LoanHeads: Cosa,Chi,Preso il,Reso il
        Entry: N. progr.
        Object: Oggetto tarato
        Reviewed: Verificato da
        Filed: Archiviato in
        Folder: Faldone
        SensLog: Registro sensibilità microfoni di misura
        Time: Ora
        Reference: Controllato con
        Change: Variazione / precedente
        Operator: Operatore
        Fields: ID,NumInv,TipoStrumento,Costruttore,Modello,Matricola,Locale,Stato
        MoreFields: TarObblig,UltimaTar,ProssimaTar,NumCertif,ValoreTar,UnitaTar,Nota,ModificatoIl
        Obliged: Tar. obbligatoria
        Changed: Modificato il
        Stock: Parco noleggio
        ItemNo: Cod. articolo
        Pieces: Q.tà
        Rate: Tariffa giorno EUR
        Round: Giro annuale tarature
        YearBefore: anno prec.
        By: chi
        ShortModel: Tipo
        ShortSerial: Matr.
        ShortDay: Data
        Planner: Scadenzario tarature
        Section: Rep.
        Ordered: Ordinato
        Yes: sì
        Legend: x = mese in cui scade la taratura
        Annex: Allegato
        AnnexTitle: strumenti soggetti a taratura
        AsOn: Aggiornato al
        Keeper: Consegnatario
        Standards: Campioni di riferimento e di lavoro
        Nominal: Valore nominale
        Traceable: Riferibilità (laboratorio)
        Use: Impiego
        UseReference: riferimento
        UseWorking: campione di lavoro
        """;
}
