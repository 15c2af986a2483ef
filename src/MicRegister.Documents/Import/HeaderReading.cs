using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What a header says by itself, before anybody looks at what stands below it.</summary>
internal sealed partial record HeaderReading(string Text)
{
    private const string Previous = "previous";
    private const int PreviousIndex = -1;
    private const int LongestSymbol = 4;
    private const int ShortestDay = 8;

    // "Level 94" is no ninety-fourth result.
    private const int MostResults = 40;
    private const int ShortestCamel = 6;

    private static readonly Dictionary<string, DeviceKind> Kinds = new(StringComparer.Ordinal)
    {
        ["microphone"] = DeviceKind.Microphone,
        ["preamplifier"] = DeviceKind.Preamplifier,
        ["plate"] = DeviceKind.GroundPlate,
        ["calibrator"] = DeviceKind.Calibrator,
        ["channel"] = DeviceKind.RecorderChannel,
        ["windscreen"] = DeviceKind.Windscreen,
        ["adapter"] = DeviceKind.Adapter,
        ["cable"] = DeviceKind.Cable,
        ["barometer"] = DeviceKind.Barometer,
    };

    /// <summary>Column by the words of the header; null where they name none.</summary>
    public Column? Column { get; init; }

    /// <summary>What is settled by the cells below: ?what, ?type, ?number, ?none; null where nothing.</summary>
    public string? Open { get; private init; }

    /// <summary>Kind of device that the column speaks of, as in <i>Mic S/N</i>.</summary>
    public DeviceKind? Kind { get; init; }

    public string? Unit { get; private init; }

    /// <summary>First day of the year or month that the header names.</summary>
    public DateOnly? Year { get; private init; }

    /// <summary>Whether the header is a day and not only its year or month.</summary>
    public bool IsDay { get; private init; }

    /// <summary>Number that tells columns of one meaning apart, as in <i>Date 2</i>.</summary>
    public int? Index { get; private init; }

    /// <summary>Frequency that the header names, Hz.</summary>
    public double? FrequencyHz { get; private init; }

    /// <summary>Whether a word was taken for another that differs by a slip, or one word is not known.</summary>
    public bool IsGuess { get; private init; }

    /// <summary>Whether it says that an uncertainty is a standard one.</summary>
    public bool IsOneSigma { get; private init; }

    /// <summary>Whether a word of it is not known, so that it may mean something else.</summary>
    public bool IsPartly { get; private init; }

    /// <summary>Whether it names a kind of device and nothing else; a word that is not known may be anything.</summary>
    public bool IsBareKind { get; private init; }

    /// <summary>The same where a person says what it holds.</summary>
    internal HeaderReading Said(Column column) =>
        this with { Column = column, Open = null, IsGuess = false, IsPartly = false, IsBareKind = false };

    /// <summary>Reads a header.</summary>
    public static HeaderReading Of(string header)
    {
        var text = Spread(header.Replace('\n', ' ').Replace('\r', ' ').Replace("+/-", "±", StringComparison.Ordinal).Trim());
        var unit = MeasuredText.Unit(text) ?? MeasuredText.UnitOfHeader(text);
        var hz = Frequency(text);
        var reading = new HeaderReading(header) { Unit = unit is "Hz" or "kHz" && hz is not null ? null : unit, FrequencyHz = hz };
        // "Per day (EUR)": whatever else it says, it is money.
        if (Money().IsMatch(text)) return reading with { Open = "?none" };
        if (text.Length >= ShortestDay && DateText.TryRead(new Cell(text), null, false, out var day) is null
            && !text.All(char.IsAsciiDigit))
            return reading with { Column = Column.Value, Year = day, IsDay = true };
        if (HumidityUnit().IsMatch(text)) return reading with { Column = Column.Humidity };
        if (MeasuredText.Unit(text) is { } whole) return reading with
        {
            Column = OfUnit(whole),
            Open = whole is "dB" or "mV" ? "?unit"
            : whole == "years" ? "?year"
            : null,
            IsGuess = whole is "Hz",
        };
        // "Sensitivity (nominal)": what stands in brackets can change the meaning.
        var words = Brackets().Replace(SensitivityUnit().Replace(WithoutFrequency(text), " "), b => Says(b.Value) ? $" {b.Value[1..^1]} "
            : " ");
        if (!Brackets().Matches(text).Any(b => Says(b.Value))
            && (Column.ByName(text) ?? Column.ByName(MeasuredText.WithoutUnit(text)) ?? OfStation(text)) is { } named)
            return reading with { Column = named };
        var year = YearIn().Match(words);
        if (year.Success) (reading, words) = (reading with { Year = Day(year) }, words.Remove(year.Index, year.Length));
        else if (MonthNames.ReadMonth(words.Trim()) is { } month) (reading, words) = (reading with { Year = month }, "");
        // "M [mV/Pa]" has its unit; the M is no metre.
        var short_ = MeasuredText.Unit(words) is not null && (unit is null || words.Trim().Length > 1) ? ""
            : MeasuredText.WithoutUnit(words.Trim(' ', ',', ';', ':', '-', '–', '_', '/'));
        var index = IndexIn().Match(short_);
        if (index.Success && int.Parse(index.Value.AsSpan().Trim(" _.#(-)"), CultureInfo.InvariantCulture) <= MostResults) (reading,
            short_) = (reading with
            {
                Index = int.Parse(index.Value.AsSpan().Trim(" _.#(-)"), CultureInfo.InvariantCulture)
            }, short_.Remove(index.Index, index.Length));
        if (string.IsNullOrWhiteSpace(short_)) return reading with
        {
            Column = reading.Year is null && reading.Index is null ? null
            : OfUnit(unit ?? "") ?? (reading.Year is null ? null : Column.Value)
        };

        var (concepts, unknown, hasSlip) = HeaderConcepts.Of(short_);
        var kind = concepts.Select(c => Kinds.GetValueOrDefault(c)).OfType<DeviceKind>().ToList();
        // "Microphone pre-amplifier" is one thing; "mic + preamp" are two.
        if (kind.Count == 2 && !Joiner().IsMatch(header)) kind.Remove(DeviceKind.Microphone);
        var others = concepts.Where(c => !Kinds.ContainsKey(c)).ToList();
        // "Barometer [kPa]" is what it read, and no barometer.
        if (kind is [var only] && only == DeviceKind.Barometer && others.Count == 0 && unit is "kPa" or "hPa" or "Pa")
            return reading with { Column = Column.Pressure };
        if (kind.Count == 1) reading = reading with { Kind = kind[0], IsBareKind = others.Count == 0 && unknown == 0 };
        var isBeside = HeaderConcepts.IsBeside(others) && unknown <= 2;
        if (((kind.Count > 1 || unknown > 1) && !isBeside) || (unknown == 1 && others.Count == 0)) return BySymbol(reading, short_,
            unit) with
        { IsGuess = true };
        // "Ist (mV/Pa)": nothing but its unit says what it is.
        if (concepts.Count == 0 && unknown == 0 && MeasuredText.IsOfSensitivity(unit)) return reading with { Column = Column.Value };
        // "Previous date" and "previous result" are one result more.
        if (others.Count > 1 && others.Remove(Previous)) reading = reading with { Index = PreviousIndex };
        var (meaning, isLoose) = others.Count == 0 ? (null, false) : HeaderConcepts.MeaningOf(others);
        // Of a year's columns only the words of the result tell them apart.
        if (meaning is null && reading.Year is not null && others is ["calibration"]) meaning = Column.Value.Key;
        if (meaning == "?two" && IsOfMaker(header, others)) meaning = "?type";
        // "INV-2003" is a number of a device, and no header, whatever its letters stand for.
        if (CodeOfDevice().IsMatch(text.Replace(" ", "", StringComparison.Ordinal)) && (meaning is null || meaning[0] == '?'
            || !ResultGroup.Family.Contains(Column.OfKey(meaning)!))) return reading with { Kind = null, Year = null, IsGuess = true };
        // "Sensitivity found" is what was measured; "as found" is what was before an adjustment.
        if (meaning == Column.FoundValue.Key && FoundAlone().IsMatch(text)) meaning = Column.Value.Key;
        // "Cal. year": a year in words is no day.
        if (meaning == Column.Day.Key && MeasuredText.Unit(text[(text.LastIndexOf(' ') + 1)..]) == "years") meaning = "?year";
        // "Calibrated at [Hz]" is no day, and neither is "Cal 1 mV/Pa".
        if (meaning == Column.Day.Key && (unit is "Hz" or "kHz")) meaning = Column.CalibrationHz.Key;
        if (meaning == Column.Day.Key && (MeasuredText.IsOfSensitivity(unit) || unit == "dB")) meaning = Column.Value.Key;
        if (meaning == Column.Day.Key && reading.Year is not null && others is ["calibration"]) meaning = Column.Value.Key;
        return reading with
        {
            Column = meaning is null || meaning[0] == '?' ? null : Column.OfKey(meaning),
            Open = meaning is not null && meaning[0] == '?' ? meaning : null,
            IsGuess = hasSlip || isLoose || unknown > 0,
            IsPartly = unknown > 0,
            IsOneSigma = others.Contains("one_sigma"),
        };
    }

    // "Manufacturer's type", "Herstellertyp" and "référence constructeur" are the model alone; "make / model" is both.
    private static bool IsOfMaker(string header, List<string> concepts) =>
        concepts.IndexOf("maker") is var maker and >= 0 && !concepts.Contains("serial") && !Joiner().IsMatch(header)
        && (concepts.FindIndex(c => c is "model" or "type") < maker || header.IndexOfAny([' ', '_']) < 0
            || header.Contains("'s ", StringComparison.Ordinal) || header.Contains("’s ", StringComparison.Ordinal));

    // "S / (mV/Pa)": the symbol of a quantity, and its unit. Of other words the unit can tell as much, where the cells agree.
    private static HeaderReading BySymbol(HeaderReading reading, string text, string? unit) => unit switch
    {
        "mV/Pa" or "V/Pa" or "dB re 1 V/Pa" => reading with { Column = Column.Value },
        "dB" when HeaderConcepts.Split(text).Where(w => !HeaderConcepts.IsFiller(w)).Sum(w => w.Length) <= LongestSymbol =>
            reading with { Open = "?unit" },
        "Hz" or "kHz" when Symbol().Match(text).Groups["f"].Success => reading with { Column = Column.CalibrationHz },
        "Pa" or "hPa" or "kPa" when Symbol().Match(text).Groups["p"].Success => reading with { Column = Column.Pressure },
        "°C" when Symbol().Match(text).Groups["t"].Success => reading with { Column = Column.Temperature },
        _ => reading,
    };

    private static bool Says(string bracket)
    {
        var inner = bracket[1..^1];
        return MeasuredText.Unit(inner) is null && !FactorIn().IsMatch(inner)
            && HeaderConcepts.Of(inner) is var (concepts, unknown, _) && (concepts.Any(HeaderConcepts.ChangesMeaning)
            || (unknown == 0 && concepts is [var kind] && Kinds.ContainsKey(kind)));
    }

    // "Microphone | Serial no. | Preamplifier | Serial no.": each number is of the kind to its left.
    /// <summary>Gives serial numbers the kinds to their left, where several stand in one header.</summary>
    internal static void OfNeighbours(HeaderReading?[] readings)
    {
        var serials = Enumerable.Range(0, readings.Length).Where(i => readings[i] is { Kind: null } r && r.Column == Column.Serial)
            .ToList();
        if (serials.Count < 2) return;
        var kinds = serials.Select(s => Enumerable.Range(0, s).Select(i => BareKind(readings[i])).Where(k => k is not null).LastOrDefault())
            .ToList();
        if (kinds.Contains(null) || kinds.Distinct().Count() != kinds.Count) return;
        foreach (var (place, kind) in serials.Zip(kinds)) readings[place] = readings[place]! with { Kind = kind };
    }

    private static DeviceKind? BareKind(HeaderReading? reading) => reading is not { } r ? null : r.Kind is { } kind && r.Column is null
        && r.Open is null
        ? kind
        : r.Column is { } column ? Column.Parts.FirstOrDefault(p => p.Column == column).Kind : null;

    // "serial_no", "sens_mv_pa" and "SerialNumber": words as databases join them.
    private static string Spread(string text) => text.Contains(' ', StringComparison.Ordinal) ? text
        : text.Contains('_', StringComparison.Ordinal) ? text.Replace('_', ' ').Trim()
        : text.Length >= ShortestCamel && Camel().IsMatch(text) ? Hump().Replace(text, " ") : text;

    /// <summary>Kind that a text of several words names; null where none, or more than one.</summary>
    /// <remarks>
    /// What stands behind <i>for</i> only says what a thing is for. A microphone is often named beside the thing itself: a cable, an adapter.
    /// </remarks>
    public static DeviceKind? KindIn(string text)
    {
        var cut = Purpose().Match(FoldedForKind(text));
        var words = cut.Success ? cut.Groups[cut.Groups[1].Success ? 1 : 2].Value : text;
        if (OtherThings().IsMatch(FoldedForKind(text)) || Words.Status(OtherWords(words)) is not null) return null;
        var kinds = HeaderConcepts.Of(words).Concepts.Select(c => Kinds.GetValueOrDefault(c)).OfType<DeviceKind>().Distinct().ToList();
        if (kinds.Count > 1) kinds.Remove(DeviceKind.Microphone);
        return kinds.Count == 1 ? kinds[0] : kinds.Count == 0 ? KindByEnd(words) : null;
    }

    // "Lost microphone" says more than a kind: what is left without the words of kinds is a state of use.
    internal static string OtherWords(string text) => string.Join(' ',
        text.Split([' ', ',', ';', ':', '(', ')', '/'], StringSplitOptions.RemoveEmptyEntries)
        .Where(w => !HeaderConcepts.Of(w).Concepts.Any(Kinds.ContainsKey)));

    // What it is stands last in a joined word: "Kondensatormikrofon", "Mikrofonkabel".
    private static DeviceKind? KindByEnd(string words)
    {
        var kinds = HeaderConcepts.Split(words).Select(HeaderConcepts.OfEnd).OfType<string>().Select(c => Kinds.GetValueOrDefault(c))
            .OfType<DeviceKind>().Distinct().ToList();
        return kinds.Count == 1 ? kinds[0] : null;
    }

    // "Estación": the accents are left out in the lists of words.
    private static Column? OfStation(string text)
    {
        var folded = Sheets.FoldedText.Of(text).Trim(' ', '?', '¿', ':', '.');
        if (folded is "ou" or "dove" or "donde" or "waar" or "wo") return Column.Place;
        return Column.ByName(folded) is { } column && column == Column.Station ? column : null;
    }

    private static string FoldedForKind(string text) => Sheets.FoldedText.Of(text);

    private static Column? OfUnit(string unit) => unit switch
    {
        "mV/Pa" or "V/Pa" or "dB re 1 V/Pa" => Column.Value,
        "in" => Column.Fields[DeviceField.SizeMm],
        "Hz" => Column.CalibrationHz,
        _ => null,
    };

    private static double? Frequency(string text)
    {
        if (FrequencyIn().Match(text) is not { Success: true } m) return null;
        return MeasuredText.TryRead(m.Groups[1].Value, out var value, out _) ? value * (m.Groups[2].Value.StartsWith('k') ? 1000 : 1)
            : null;
    }

    private static string WithoutFrequency(string text) => FrequencyIn().Replace(text, " ");

    private static DateOnly? Day(Match year)
    {
        var month = year.Groups[2].Success ? int.Parse(year.Groups[2].ValueSpan, CultureInfo.InvariantCulture) : 1;
        return month is >= 1 and <= 12 ? new(int.Parse(year.Groups[1].ValueSpan, CultureInfo.InvariantCulture), month, 1) : null;
    }
}
