namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the third shapes that once were the last, in the Romance languages.</summary>
internal static class FormerlyLastWords3Romance
{
    public const string French = """
        Kind: Type d'appareil|Désignation|Famille
        Maker: Marque|Fabricant|Constructeur
        Model: Modèle|Référence|Type
        Serial: N° de série|Numéro de série|N° série
        Code: N° d'équipement|N° d'inventaire|Repère
        Status: Disponibilité|État|Situation
        Place: Emplacement|Lieu de stockage|Local
        Size: Taille nominale|Diamètre de membrane
        Day: Dernier étalonnage|Étalonné le|Date de l'étalonnage
        Value: Sensibilité|Sensibilité en circuit ouvert|Efficacité
        Level: Niveau de pression acoustique|Niveau du calibreur|Niveau mesuré
        Result: Valeur mesurée|Valeur relevée|Valeur d'étalonnage
        U: Incertitude élargie|Incertitude de mesure
        K: Facteur d'élargissement k
        Lab: Étalonné par|Laboratoire d'étalonnage|Labo
        Number: N° de certificat|Certificat d'étalonnage|Réf. certificat
        Hz: Fréquence d'étalonnage|Fréquence
        Pressure: Pression barométrique|Pression statique
        Temperature: Température ambiante|Température de l'air
        Humidity: Humidité rel.|Hygrométrie
        Due: Prochain étalonnage|À étalonner le|Échéance
        Unit: Unité de mesure|Unité
        Nominal: Sensibilité nom.|Sensibilité selon notice
        Remark: Commentaires|Remarques
        OneMicrophone: Microphone|Micro à condensateur
        ManyMicrophone: Microphones
        OnePreamplifier: Préamplificateur|Préampli micro
        ManyPreamplifier: Préamplificateurs
        OneCalibrator: Calibreur acoustique|Calibreur
        ManyCalibrator: Calibreurs acoustiques
        InService: en service|disponible|opérationnel
        Away: prêté|en location|au laboratoire d'étalonnage
        OutOfService: hors service|défectueux|en réparation
        Lost: perdu|introuvable
        Retired: réformé|mis au rebut|retiré du parc
        At: à 250 Hz
        Point: Balise
        Since: En service depuis
        AirportTitle: Balises de mesure du bruit : microphones installés
        AsOfDay: Mise à jour
        Description: Descriptif
        ContractorTitle: Matériel de mesure du service acoustique
        CheckedBy: Liste vérifiée par
        Line: Ligne
        Rate: Tarif journalier (EUR)
        DeliveryNote: Bon de livraison
        Customer: Client
        CustomerName: Groupe bruit des avions
        Sent: Date d'expédition
        Thanks: Merci de vérifier la livraison à réception.
        Cal: Étal.
        CalDate: date
        Owned: Nos appareils de mesure
        Lower: Limite inférieure
        Upper: Limite supérieure
        Verdict: Verdict
        Passed: conforme
        Months12: Périodicité (mois)
        Department: Service
        Log: Suivi des étalonnages
        Stock: Matériel
        Custodian: Détenteur
        Compact: AAAAMMJJ
        Marking: DIFFUSION RESTREINTE
        """;

    public const string Spanish = """
        Kind: Tipo de equipo|Denominación|Familia
        Maker: Marca|Fabricante|Casa
        Model: Modelo|Referencia|Tipo
        Serial: N.º de serie|Número de serie|Nº serie
        Code: N.º de equipo|Nº de inventario|Identificación
        Status: Disponibilidad|Estado|Situación
        Place: Ubicación|Lugar de almacenamiento|Sala
        Size: Tamaño nominal|Diámetro de membrana
        Day: Última calibración|Calibrado el|Fecha de la calibración
        Value: Sensibilidad|Sensibilidad en circuito abierto|Sensibilidad medida
        Level: Nivel de presión sonora|Nivel del calibrador|Nivel medido
        Result: Valor medido|Valor real|Valor de calibración
        U: Incertidumbre expandida|Incertidumbre de medida
        K: Factor de cobertura k
        Lab: Calibrado por|Laboratorio de calibración|Laboratorio
        Number: N.º de certificado|Certificado de calibración|Ref. certificado
        Hz: Frecuencia de calibración|Frecuencia
        Pressure: Presión barométrica|Presión estática
        Temperature: Temperatura ambiente|Temperatura del aire
        Humidity: Humedad rel.|Humedad del aire
        Due: Próxima calibración|A calibrar el|Vence el
        Unit: Unidad de medida|Unidad
        Nominal: Sensibilidad nom.|Sensibilidad según hoja de datos
        Remark: Comentarios|Notas
        OneMicrophone: Micrófono|Micrófono de condensador
        ManyMicrophone: Micrófonos
        OnePreamplifier: Preamplificador|Previo de micrófono
        ManyPreamplifier: Preamplificadores
        OneCalibrator: Calibrador acústico|Calibrador sonoro
        ManyCalibrator: Calibradores acústicos
        InService: en uso|disponible|operativo
        Away: prestado|alquilado|en el laboratorio de calibración
        OutOfService: fuera de servicio|defectuoso|en reparación
        Lost: perdido|en paradero desconocido
        Retired: retirado|dado de baja|desechado
        At: a 250 Hz
        Point: Punto de medida
        Since: En servicio desde
        AirportTitle: Terminales de monitorado de ruido: micrófonos instalados
        AsOfDay: Actualizado
        Description: Descripción
        ContractorTitle: Equipos de medida del grupo de acústica
        CheckedBy: Lista revisada por
        Line: Línea
        Rate: Tarifa diaria (EUR)
        DeliveryNote: Albarán
        Customer: Cliente
        CustomerName: Grupo de ruido de aeronaves
        Sent: Fecha de envío
        Thanks: Compruebe la entrega a su recepción.
        Cal: Cal.
        CalDate: fecha
        Owned: Nuestros equipos de medida
        Lower: Límite inferior
        Upper: Límite superior
        Verdict: Dictamen
        Passed: conforme
        Months12: Periodo (meses)
        Department: Departamento
        Log: Registro de calibraciones
        Stock: Equipos
        Custodian: Depositario
        Compact: AAAAMMDD
        Marking: DIFUSIÓN LIMITADA
        """;

    public const string Italian = """
        Kind: Tipo di strumento|Denominazione|Famiglia
        Maker: Marca|Costruttore|Casa costruttrice
        Model: Modello|Tipo|Sigla
        Serial: Numero di serie|Matricola|N. serie
        Code: N. strumento|N. inventario|Codice interno
        Status: Disponibilità|Stato|Condizione
        Place: Ubicazione|Deposito|Locale
        Size: Dimensione nominale|Diametro membrana
        Day: Ultima taratura|Tarato il|Data della taratura
        Value: Sensibilità|Sensibilità a circuito aperto|Sensibilità misurata
        Level: Livello di pressione sonora|Livello del calibratore|Livello misurato
        Result: Valore misurato|Valore reale|Valore di taratura
        U: Incertezza estesa|Incertezza di misura
        K: Fattore di copertura k
        Lab: Tarato da|Laboratorio di taratura|Centro di taratura
        Number: N. certificato|Certificato di taratura|Rif. certificato
        Hz: Frequenza di taratura|Frequenza
        Pressure: Pressione barometrica|Pressione statica
        Temperature: Temperatura ambiente|Temperatura dell'aria
        Humidity: Umidità rel.|Umidità dell'aria
        Due: Prossima taratura|Da tarare il|Scadenza taratura
        Unit: Unità di misura|Unità
        Nominal: Sensibilità nom.|Sensibilità da scheda tecnica
        Remark: Commenti|Note
        OneMicrophone: Microfono|Microfono a condensatore
        ManyMicrophone: Microfoni
        OnePreamplifier: Preamplificatore|Preamplificatore microfonico
        ManyPreamplifier: Preamplificatori
        OneCalibrator: Calibratore acustico|Calibratore di livello sonoro
        ManyCalibrator: Calibratori acustici
        InService: in uso|disponibile|operativo
        Away: in prestito|noleggiato|al centro di taratura
        OutOfService: fuori servizio|guasto|in riparazione
        Lost: smarrito|irreperibile
        Retired: ritirato|dismesso|rottamato
        At: a 250 Hz
        Point: Stazione di misura
        Since: In funzione dal
        AirportTitle: Centraline di monitoraggio del rumore: microfoni installati
        AsOfDay: Aggiornato al
        Description: Descrizione
        ContractorTitle: Strumenti di misura del gruppo acustica
        CheckedBy: Elenco verificato da
        Line: Riga
        Rate: Tariffa giornaliera (EUR)
        DeliveryNote: Documento di trasporto
        Customer: Cliente
        CustomerName: Gruppo rumore aeroportuale
        Sent: Data di spedizione
        Thanks: Si prega di controllare la consegna al ricevimento.
        Cal: Tar.
        CalDate: data
        Owned: I nostri strumenti di misura
        Lower: Limite inferiore
        Upper: Limite superiore
        Verdict: Esito
        Passed: conforme
        Months12: Periodicità (mesi)
        Department: Reparto
        Log: Registro tarature
        Stock: Strumenti
        Custodian: Consegnatario
        Compact: AAAAMMGG
        Marking: DIFFUSIONE LIMITATA
        """;
}
