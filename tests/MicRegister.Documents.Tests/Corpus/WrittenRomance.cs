namespace MicRegister.Documents.Tests.Corpus;

/// <summary>The words of French, Spanish and Italian lists.</summary>
internal static class WrittenRomance
{
    public const string French = """
        Kind: Catégorie|Désignation|Appareil
        Maker: Fabricant|Constructeur|Marque
        Model: Modèle|Type|Référence
        Serial: N° de série|Numéro de série|N° série
        Code: N° d'inventaire|Code inventaire|N° inventaire
        Status: État|Statut
        Place: Emplacement|Localisation|Lieu de stockage
        Size: Diamètre|Taille
        Day: Date d'étalonnage|Étalonné le|Dernier étalonnage
        Value: Sensibilité|Efficacité
        Level: Niveau|Niveau de pression acoustique
        Result: Valeur|Résultat
        U: Incertitude|Incertitude élargie|U
        K: k|Facteur d'élargissement
        Lab: Laboratoire|Labo
        Number: N° de certificat|Certificat
        Hz: Fréquence|f
        Pressure: Pression atmosphérique|Pression statique
        Temperature: Température|Temp.
        Humidity: Humidité relative|Humidité
        Due: Prochain étalonnage|Échéance
        Unit: Unité
        Quantity: Grandeur
        Nominal: Sensibilité nominale
        Remark: Remarques|Observations
        Price: Prix d'achat (EUR)
        Key: Clé
        Bought: Date d'achat
        Initials: Responsable
        OneMicrophone: Microphone|Micro|Microphone de mesure
        ManyMicrophone: Microphones|Micros|Microphones de mesure
        OnePreamplifier: Préamplificateur|Préampli
        ManyPreamplifier: Préamplificateurs|Préamplis
        OneCalibrator: Calibreur|Calibreur acoustique
        ManyCalibrator: Calibreurs|Calibreurs acoustiques
        OnePistonphone: Pistonphone
        ManyPistonphone: Pistonphones
        OnePlate: Plaque au sol|Plaque de sol
        ManyPlate: Plaques de sol
        OneChannel: Voie d'enregistrement|Voie de mesure
        ManyChannel: Voies de mesure
        InService: en service|opérationnel|actif
        Away: en étalonnage|prêté|en prêt
        OutOfService: hors service|défectueux|en panne
        Lost: perdu|introuvable|égaré
        Retired: réformé|mis au rebut
        Months: janvier|février|mars|avril|mai|juin|juillet|août|septembre|octobre|novembre|décembre
        Inch: pouce
        Old: ANCIEN ne pas utiliser
        Total: Total
        Page: Page
        Inventory: Liste du matériel
        History: Historique des étalonnages
        Before: Contrôle avant
        After: Contrôle après
        Station: Point de mesure
        Placed: Posé à
        Found: avant ajustage
        Left: après ajustage
        Lists: Listes
        Hint: Toutes les valeurs re 20 µPa ou 1 V/Pa; modifications par le labo seulement.
        """;

    public const string Spanish = """
        Kind: Categoría|Equipo|Tipo de equipo
        Maker: Fabricante|Marca
        Model: Modelo
        Serial: Nº de serie|Número de serie|N.º serie
        Code: Nº de inventario|Código de inventario
        Status: Estado
        Place: Ubicación|Lugar
        Size: Diámetro|Tamaño
        Day: Fecha de calibración|Última calibración|Calibrado el
        Value: Sensibilidad
        Level: Nivel|Nivel de presión sonora
        Result: Valor|Resultado
        U: Incertidumbre|Incertidumbre expandida|U
        K: k|Factor de cobertura
        Lab: Laboratorio|Laboratorio de calibración
        Number: Nº de certificado|Certificado
        Hz: Frecuencia|f
        Pressure: Presión atmosférica|Presión estática
        Temperature: Temperatura|Temp.
        Humidity: Humedad relativa|Humedad
        Due: Próxima calibración|Vencimiento
        Unit: Unidad
        Quantity: Magnitud
        Nominal: Sensibilidad nominal
        Remark: Observaciones|Notas
        Price: Precio de compra (EUR)
        Key: Llave
        Bought: Fecha de compra
        Initials: Responsable
        OneMicrophone: Micrófono|Micrófono de medida
        ManyMicrophone: Micrófonos|Micrófonos de medida
        OnePreamplifier: Preamplificador
        ManyPreamplifier: Preamplificadores
        OneCalibrator: Calibrador|Calibrador acústico|Calibrador sonoro
        ManyCalibrator: Calibradores|Calibradores acústicos
        OnePistonphone: Pistófono
        ManyPistonphone: Pistófonos
        OnePlate: Placa de suelo|Placa base
        ManyPlate: Placas de suelo
        OneChannel: Canal de grabación|Canal de medida
        ManyChannel: Canales de medida
        InService: en uso|en servicio|operativo
        Away: en calibración|prestado
        OutOfService: averiado|fuera de servicio|defectuoso
        Lost: perdido|extraviado
        Retired: dado de baja|retirado
        Months: enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre
        Inch: pulgada
        Old: ANTIGUO no usar
        Total: Total
        Page: Página
        Inventory: Lista de equipos
        History: Historial de calibraciones
        Before: Verificación antes
        After: Verificación después
        Station: Punto de medida
        Placed: Colocado a las
        Found: antes del ajuste
        Left: después del ajuste
        Lists: Listas
        Hint: Todos los valores re 20 µPa o 1 V/Pa; solo el laboratorio hace cambios.
        """;

    public const string Italian = """
        Kind: Categoria|Tipologia|Strumento
        Maker: Costruttore|Produttore|Marca
        Model: Modello|Tipo
        Serial: Matricola|N. di serie|Numero di serie
        Code: N. inventario|Codice inventario
        Status: Stato
        Place: Ubicazione|Collocazione
        Size: Diametro|Dimensione
        Day: Data di taratura|Ultima taratura|Tarato il
        Value: Sensibilità
        Level: Livello|Livello di pressione sonora
        Result: Valore|Risultato
        U: Incertezza|Incertezza estesa|U
        K: k|Fattore di copertura
        Lab: Laboratorio|Centro di taratura
        Number: N. certificato|Certificato
        Hz: Frequenza|f
        Pressure: Pressione atmosferica|Pressione statica
        Temperature: Temperatura|Temp.
        Humidity: Umidità relativa|Umidità
        Due: Prossima taratura|Scadenza
        Unit: Unità|Unità di misura
        Quantity: Grandezza
        Nominal: Sensibilità nominale
        Remark: Note|Osservazioni
        Price: Prezzo di acquisto (EUR)
        Key: Chiave
        Bought: Data di acquisto
        Initials: Responsabile
        OneMicrophone: Microfono|Microfono di misura
        ManyMicrophone: Microfoni|Microfoni di misura
        OnePreamplifier: Preamplificatore
        ManyPreamplifier: Preamplificatori
        OneCalibrator: Calibratore|Calibratore acustico
        ManyCalibrator: Calibratori|Calibratori acustici
        OnePistonphone: Pistonofono
        ManyPistonphone: Pistonofoni
        OnePlate: Piastra a terra|Piastra al suolo
        ManyPlate: Piastre a terra
        OneChannel: Canale di registrazione|Canale di misura
        ManyChannel: Canali di misura
        InService: in uso|in servizio|operativo
        Away: in taratura|in prestito
        OutOfService: guasto|fuori servizio|difettoso
        Lost: smarrito|perso
        Retired: dismesso|rottamato
        Months: gennaio|febbraio|marzo|aprile|maggio|giugno|luglio|agosto|settembre|ottobre|novembre|dicembre
        Inch: pollice
        Old: VECCHIO non usare
        Total: Totale
        Page: Pagina
        Inventory: Elenco strumenti
        History: Storico tarature
        Before: Verifica prima
        After: Verifica dopo
        Station: Punto di misura
        Placed: Posato alle
        Found: prima della regolazione
        Left: dopo la regolazione
        Lists: Elenchi
        Hint: Tutti i valori re 20 µPa o 1 V/Pa; modifiche solo dal laboratorio.
        """;
}
