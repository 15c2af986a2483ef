namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What only some lists speak of, in the words of each language.</summary>
internal static class WrittenMore
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => French,
        Tongue.Spanish => Spanish,
        Tongue.Italian => Italian,
        _ => Dutch,
    };

    private const string English = """
        Date: Date
        Gain: Gain
        Interval: Interval (months)
        Owner: Owner|Property of
        Centre: Cost centre
        Polarisation: Polarisation voltage
        Plan: Calibration plan
        Delivery: Delivery note
        Item: Item
        Pieces: Qty
        LastOne: Last calibration
        PreviousOne: Previous calibration
        Previous: previous value
        Device: Device
        Summary: Summary of results
        Year: Year|Cal. year
        Set: Set
        Drift: Change
        AsOf: As of
        Changed: Changed on
        Cover: Read me
        Kept: Kept by
        Meant: This file lists our measuring equipment; the list itself is on the next sheet.
        """;

    private const string German = """
        Date: Datum
        Gain: Verstärkung
        Interval: Intervall (Monate)
        Owner: Eigentümer|Besitzer
        Centre: Kostenstelle
        Polarisation: Polarisationsspannung
        Plan: Kalibrierplan
        Delivery: Lieferschein
        Item: Pos.
        Pieces: Menge
        LastOne: Letzte Kalibrierung
        PreviousOne: Vorherige Kalibrierung
        Previous: vorheriger Wert
        Device: Gerät
        Summary: Zusammenfassung der Ergebnisse
        Year: Jahr|Kal.-Jahr
        Set: Satz
        Drift: Änderung
        AsOf: Stand
        Changed: Geändert am
        Cover: Hinweise
        Kept: Gepflegt von
        Meant: Diese Datei enthält unsere Messmittel; die Liste selbst steht auf dem nächsten Blatt.
        """;

    private const string French = """
        Date: Date
        Gain: Gain
        Interval: Périodicité (mois)
        Owner: Propriétaire
        Centre: Centre de coût
        Polarisation: Tension de polarisation
        Plan: Plan d'étalonnage
        Delivery: Bon de livraison
        Item: Poste
        Pieces: Qté
        LastOne: Dernier étalonnage
        PreviousOne: Étalonnage précédent
        Previous: valeur précédente
        Device: Appareil
        Summary: Récapitulatif des résultats
        Year: Année
        Set: Lot
        Drift: Écart
        AsOf: Situation au
        Changed: Modifié le
        Cover: À lire
        Kept: Tenu par
        Meant: Ce fichier contient nos moyens de mesure; la liste est sur la feuille suivante.
        """;

    private const string Spanish = """
        Date: Fecha
        Gain: Ganancia
        Interval: Intervalo (meses)
        Owner: Propietario
        Centre: Centro de coste
        Polarisation: Tensión de polarización
        Plan: Plan de calibración
        Delivery: Albarán
        Item: Pos.
        Pieces: Cant.
        LastOne: Última calibración
        PreviousOne: Calibración anterior
        Previous: valor anterior
        Device: Equipo
        Summary: Resumen de resultados
        Year: Año
        Set: Juego
        Drift: Variación
        AsOf: Situación a
        Changed: Modificado el
        Cover: Léame
        Kept: A cargo de
        Meant: Este archivo contiene nuestros equipos de medida; la lista está en la hoja siguiente.
        """;

    private const string Italian = """
        Date: Data
        Gain: Guadagno
        Interval: Intervallo (mesi)
        Owner: Proprietario
        Centre: Centro di costo
        Polarisation: Tensione di polarizzazione
        Plan: Piano di taratura
        Delivery: Documento di trasporto
        Item: Pos.
        Pieces: Q.tà
        LastOne: Ultima taratura
        PreviousOne: Taratura precedente
        Previous: valore precedente
        Device: Strumento
        Summary: Riepilogo dei risultati
        Year: Anno
        Set: Set
        Drift: Variazione
        AsOf: Situazione al
        Changed: Modificato il
        Cover: Leggimi
        Kept: A cura di
        Meant: Questo file contiene i nostri strumenti di misura; l'elenco è nel foglio seguente.
        """;

    private const string Dutch = """
        Date: Datum
        Gain: Versterking
        Interval: Interval (maanden)
        Owner: Eigenaar
        Centre: Kostenplaats
        Polarisation: Polarisatiespanning
        Plan: Kalibratieplan
        Delivery: Pakbon
        Item: Pos.
        Pieces: Aantal
        LastOne: Laatste kalibratie
        PreviousOne: Vorige kalibratie
        Previous: vorige waarde
        Device: Apparaat
        Summary: Overzicht van de resultaten
        Year: Jaar
        Set: Set
        Drift: Verandering
        AsOf: Stand op
        Changed: Gewijzigd op
        Cover: Lees mij
        Kept: Bijgehouden door
        Meant: Dit bestand bevat onze meetmiddelen; de lijst zelf staat op het volgende blad.
        """;
}
