namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the last shapes alone, in the Romance languages.</summary>
internal static class LastWordsRomance
{
    public const string French = """
        Kind: Appareil|Nature de l'appareil|Famille|Dénomination
        Maker: Nom du fabricant|Constructeur|Marque de l'appareil|Fab.
        Model: Nom du modèle|Type constructeur|Produit|Modèle / version
        Serial: N° de série|Num. série|Numéro de série fabricant|N.S.
        Code: N° équipement|Code interne|N° d'immobilisation|N° étiquette
        Status: Disponibilité|Statut actuel|État|Bon pour usage
        Place: Conservé à|Salle|Lieu de stockage|Emplacement habituel
        Size: Taille du micro|Taille (pouce)|Ø
        Day: Date d'étalonnage|Étalonné le|Dernier étalonnage|Étal. du
        Value: Sensibilité (étal.)|Sensibilité du microphone|Sensibilité en circuit ouvert|Sens.
        Result: Résultat de l'étalonnage|Valeur relevée|Résultat étal.|Mesuré
        U: Incertitude de mesure|Incert. élargie|Incert.
        Lab: Laboratoire d'étal.|Étalonné chez|Labo externe|Prestataire d'étalonnage
        Number: Numéro de certificat|Certif. d'étal.|N° de rapport|Certif.
        Due: Prochaine échéance|À étalonner pour le|Valable jusqu'au|Prochain étal.
        Unit: Unité de la valeur|Unité mesurée|Unités
        Remark: Note|Observations|Remarques / défauts
        OneMicrophone: Microphone de mesure|Capsule microphonique|Micro de mesure
        ManyMicrophone: Microphones de mesure|Capsules microphoniques
        OnePreamplifier: Préamplificateur de microphone|Préampli micro
        OneCalibrator: Calibreur acoustique|Calibrateur|Source sonore étalon
        OnePlate: Plaque de sol|Plaque pour mesure au sol
        OneChannel: Voie d'enregistreur|Voie d'analyseur
        InService: opérationnel|en usage|au placard
        Away: envoyé à l'étalonnage|prêté|au laboratoire d'étalonnage
        OutOfService: bloqué|en attente de réparation|défectueux
        Lost: perdu|introuvable|absent à l'inventaire
        Retired: sorti du parc|retiré du service|mis au rebut
        SchoolSheet: Matériel
        SchoolTitle: Laboratoire d'acoustique, matériel et suivi des étalonnages
        Device: Appareil
        Outside: Étalonnage externe
        Inside: Vérification intermédiaire (interne)
        On: Date
        Found: Écart [dB]
        By: Visa
        Site: Site
        Component: Élément
        Monitors: Stations
        MonitorsTitle: Surveillance du bruit des avions, matériel par station
        Monitor: Station
        Sites: Salle des fêtes,Le Verger,Château d'eau,La Butte,Route du Bac,Ferme Basse,École
        ArticleNo: Code produit
        Article: Produit
        OutUntil: en location jusqu'au
        Deposit: Caution EUR
        Safety: Contrôle électrique
        InBox: Livré avec
        BoxParts: bonnette,étui,petite valise
        ChannelTitle: Plan des voies microphones, banc d'essai
        Project: Projet
        Channel: Voie
        Point: Point de mesure
        Points: Conducteur gauche,Conducteur droit,Arrière gauche,Arrière droit,Moteur 1 m,Admission,Échappement,Boîte,Soubassement
        Range: Calibre d'entrée [V]
        Free: libre
        OfficeTitle: Service environnement, cellule bruit : appareils détenus
        No: N°
        Acquired: Année d'achat
        Verified: Vérification périodique valable jusqu'à fin
        Keeper: Agent
        Extension: Poste
        RoundsTitle: Campagnes d'étalonnage des microphones de mesure
        Drift: Dérive [dB]
        Lives: Tiroir
        KitTitle: Matériel du bureau d'études
        ShortName: Nom court
        ShortMicrophone: MIC
        ShortPreamplifier: PRE
        ShortCalibrator: CAL
        DayAndLab: Étalonné (date, laboratoire)
        Car: Mallette
        Order: N° d'ordre
        Received: Reçu le
        Returned: Rendu le
        Customer: Demandeur
        Customers: Usine 2,Acoustique,Essais
        Air: Ambiance (temp. / pression / HR)
        Hours: Heures
        OutTitle: Étalonnages externes par laboratoire
        Cost: Coût EUR
        PurchaseOrder: N° commande
        About: À lire
        AboutTitle: Registre du matériel de mesure acoustique
        About1: Seul le responsable métrologie fait les modifications.
        About2: Toute modification est notée dans la feuille Modifications.
        List: Parc
        Changes: Modifications
        ChangeHeads: Date,Qui,Quoi
        ChangeTexts: étalonnages saisis,emplacements vérifiés,deux appareils sortis
        Notes: câble abîmé,capuchon absent,a pris la pluie
        """;

    public const string Spanish = """
        Kind: Aparato|Clase de equipo|Familia|Qué es
        Maker: Nombre del fabricante|Marca comercial|Fabricado por|Fab.
        Model: Nombre del modelo|Tipo nº|Producto|Modelo / versión
        Serial: Número de serie|N.º serie|Serie fabricante|S/N
        Code: Nº de equipo|Nº de inmovilizado|Nº interno|Etiqueta
        Status: Disponibilidad|Estado actual|Estado|Utilizable
        Place: Guardado en|Sala|Lugar de almacenamiento|Ubicación
        Size: Tamaño del micro|Tamaño (pulg.)|Ø
        Day: Fecha de calibración|Última calibración|Calibrado el|Fecha cal.
        Value: Sensibilidad (cal.)|Sensibilidad del micrófono|Sensibilidad en vacío|Sensib.
        Result: Resultado de la calibración|Valor hallado|Resultado cal.|Medido
        U: Incertidumbre de medida|Incert. expandida|Incert.
        Lab: Laboratorio calibrador|Calibrado en|Lab. de calibración|Empresa calibradora
        Number: Número de certificado|Certif. de calibración|Nº de informe|Certif.
        Due: Próximo vencimiento|Calibrar antes de|Válido hasta|Próxima cal.
        Unit: Unidad del valor|Unid.|Unidades
        Remark: Nota|Observaciones|Observaciones / defectos
        OneMicrophone: Micrófono de medida|Cápsula microfónica|Micro de medida
        ManyMicrophone: Micrófonos de medida|Cápsulas microfónicas
        OnePreamplifier: Preamplificador de micrófono|Preamplif. micro
        OneCalibrator: Calibrador acústico|Calibrador sonoro|Calibrador de sonómetros
        OnePlate: Placa de suelo|Tablero de suelo
        OneChannel: Canal de grabadora|Canal de analizador
        InService: operativo|en uso|en el armario
        Away: enviado a calibración|prestado|en el laboratorio de calibración
        OutOfService: bloqueado|pendiente de reparación|averiado
        Lost: perdido|no aparece|no hallado en inventario
        Retired: retirado|fuera de inventario|desguazado
        SchoolSheet: Equipos
        SchoolTitle: Laboratorio de acústica, equipos y control de calibraciones
        Device: Equipo
        Outside: Calibración externa
        Inside: Verificación intermedia (interna)
        On: Fecha
        Found: Desviación [dB]
        By: Firma
        Site: Emplazamiento
        Component: Componente
        Monitors: Estaciones
        MonitorsTitle: Monitorado de ruido aeroportuario, equipos por estación
        Monitor: TMR
        Sites: Casa de Cultura,El Huerto,Depósito de agua,La Loma,Camino del Vado,Cortijo Bajo,Colegio
        ArticleNo: Ref. producto
        Article: Producto
        OutUntil: alquilado hasta
        Deposit: Fianza EUR
        Safety: Revisión eléctrica
        InBox: Se entrega con
        BoxParts: pantalla antiviento,funda,maleta pequeña
        ChannelTitle: Plan de canales de micrófonos, banco de ensayo
        Project: Proyecto
        Channel: Canal
        Point: Punto de medida
        Points: Conductor izq.,Conductor dcho.,Trasero izq.,Trasero dcho.,Motor 1 m,Admisión,Escape,Caja de cambios,Bajos
        Range: Rango de entrada [V]
        Free: libre
        OfficeTitle: Área de Medio Ambiente, ruido: relación de instrumentos
        No: Nº
        Acquired: Año de compra
        Verified: Verificación periódica válida hasta fin de
        Keeper: Técnico asignado
        Extension: Ext.
        RoundsTitle: Rondas de calibración de los micrófonos de medida
        Drift: Deriva [dB]
        Lives: Cajón
        KitTitle: Equipos del gabinete
        ShortName: Nombre corto
        ShortMicrophone: MIC
        ShortPreamplifier: PRE
        ShortCalibrator: CAL
        DayAndLab: Calibrado (fecha, laboratorio)
        Car: Maletín
        Order: Nº de orden
        Received: Recibido
        Returned: Devuelto
        Customer: Solicitante
        Customers: Planta 2,Acústica,Ensayos
        Air: Ambiente (temp. / presión / HR)
        Hours: Horas
        OutTitle: Calibraciones externas por laboratorio
        Cost: Coste EUR
        PurchaseOrder: Nº pedido
        About: Leer antes
        AboutTitle: Libro de equipos de medida, acústica
        About1: Solo el responsable de equipos hace cambios.
        About2: Cada cambio se anota en la hoja Cambios.
        List: Parque
        Changes: Cambios
        ChangeHeads: Fecha,Quién,Qué
        ChangeTexts: calibraciones anotadas,ubicaciones revisadas,dos equipos dados de baja
        Notes: cable suelto,falta la tapa,se mojó con la lluvia
        """;

    public const string Italian = """
        Kind: Apparecchio|Genere di strumento|Famiglia|Oggetto
        Maker: Nome costruttore|Casa costruttrice|Prodotto da|Prod.
        Model: Nome modello|Tipo costruttore|Prodotto|Modello / versione
        Serial: Numero di matricola|N. serie|Matricola|Numero di serie
        Code: N. apparecchiatura|N. cespite|Numero interno|Etichetta
        Status: Disponibilità|Stato attuale|Stato|Usabile
        Place: Conservato in|Stanza|Luogo di deposito|Collocazione
        Size: Misura microfono|Misura (pollici)|Ø
        Day: Data di taratura|Tarato il|Ultima taratura|Taratura del
        Value: Sensibilità (tar.)|Sensibilità del microfono|Sensibilità a vuoto|Sensib.
        Result: Esito della taratura|Valore rilevato|Risultato tar.|Misurato
        U: Incertezza di misura|Incert. estesa|Incert.
        Lab: Laboratorio tar.|Tarato presso|Centro di taratura|Laboratorio esterno
        Number: Numero certificato|Certif. di taratura|N. rapporto|Certif.
        Due: Prossima scadenza|Tarare entro il|Valido fino al|Prossima tar.
        Unit: Unità del valore|Unità mis.|Unità
        Remark: Nota|Osservazioni|Note / difetti
        OneMicrophone: Microfono di misura|Capsula microfonica|Micro di misura
        ManyMicrophone: Microfoni di misura|Capsule microfoniche
        OnePreamplifier: Preamplificatore per microfono|Preampl. microfono
        OneCalibrator: Calibratore acustico|Calibratore di suono|Calibratore per fonometri
        OnePlate: Piastra a terra|Tavola per misure al suolo
        OneChannel: Canale del registratore|Canale analizzatore
        InService: operativo|in uso|in armadio
        Away: spedito per taratura|prestato|al centro di taratura
        OutOfService: bloccato|in attesa di riparazione|difettoso
        Lost: smarrito|introvabile|non trovato all'inventario
        Retired: dismesso|tolto dal parco|rottamato
        SchoolSheet: Apparecchi
        SchoolTitle: Laboratorio di acustica, apparecchi e stato delle tarature
        Device: Apparecchio
        Outside: Taratura esterna
        Inside: Verifica intermedia (interna)
        On: Data
        Found: Scostamento [dB]
        By: Sigla
        Site: Sito
        Component: Componente
        Monitors: Centraline
        MonitorsTitle: Monitoraggio rumore aeroportuale, dotazione delle centraline
        Monitor: Centralina
        Sites: Oratorio,Via dei Meli,Acquedotto,Colle Alto,Via del Traghetto,Cascina Bassa,Scuola
        ArticleNo: Cod. prodotto
        Article: Prodotto
        OutUntil: noleggiato fino al
        Deposit: Cauzione EUR
        Safety: Verifica elettrica
        InBox: Fornito con
        BoxParts: cuffia antivento,custodia,valigetta
        ChannelTitle: Piano canali microfoni, banco prova
        Project: Commessa
        Channel: Canale
        Point: Punto di misura
        Points: Guidatore sx,Guidatore dx,Posteriore sx,Posteriore dx,Motore 1 m,Aspirazione,Scarico,Cambio,Sottoscocca
        Range: Fondo scala [V]
        Free: libero
        OfficeTitle: Settore ambiente, ufficio rumore: strumenti in dotazione
        No: N.
        Acquired: Anno acquisto
        Verified: Verifica periodica valida fino a fine
        Keeper: Assegnatario
        Extension: Int. tel.
        RoundsTitle: Campagne di taratura dei microfoni di misura
        Drift: Deriva [dB]
        Lives: Cassetto
        KitTitle: Strumenti dello studio
        ShortName: Sigla breve
        ShortMicrophone: MIC
        ShortPreamplifier: PRE
        ShortCalibrator: CAL
        DayAndLab: Tarato (data, laboratorio)
        Car: Valigia
        Order: Ordine
        Received: Ricevuto
        Returned: Restituito
        Customer: Richiedente
        Customers: Stabilimento 2,Acustica,Prove
        Air: Ambiente (temp. / pressione / UR)
        Hours: Ore
        OutTitle: Tarature esterne per laboratorio
        Cost: Costo EUR
        PurchaseOrder: N. ordine acquisto
        About: Leggere prima
        AboutTitle: Libro degli strumenti di misura, acustica
        About1: Modifica solo il responsabile della strumentazione.
        About2: Ogni modifica si annota nel foglio Modifiche.
        List: Parco strumenti
        Changes: Modifiche
        ChangeHeads: Data,Chi,Cosa
        ChangeTexts: tarature inserite,collocazioni controllate,due apparecchi tolti
        Notes: cavo lento,manca il tappo,bagnato dalla pioggia
        """;
}
