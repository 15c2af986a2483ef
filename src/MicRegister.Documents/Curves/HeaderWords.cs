using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Documents.Curves;

/// <summary>What a header says of its column.</summary>
/// <param name="Meaning">What the column is, certain; null where a person must say it.</param>
/// <param name="Doubt">Why a person must; null where it is certain.</param>
internal sealed record HeaderMeaning(ColumnMeaning? Meaning, string? Doubt)
{
    /// <summary>Angle of incidence in ° that it names.</summary>
    public double? AngleDeg { get; init; }

    /// <summary>Sound field that it names: pressure, free-field, diffuse, or actuator.</summary>
    public string? Field { get; init; }

    /// <summary>Reference frequency in Hz that it names.</summary>
    public double? RelativeToHz { get; init; }

    /// <summary>How it may name a device.</summary>
    public string? Serial { get; init; }

    /// <summary>Ids of devices that <see cref="Serial"/> can stand for.</summary>
    public IReadOnlyList<string> Devices { get; init; } = [];
}

/// <summary>
/// Reads headers by their words. A column is certain only where every word is known: one that is not may turn the meaning round, so that
/// it costs a question and never a wrong curve.
/// </summary>
internal static partial class HeaderWords
{
    private static readonly HashSet<string> Neutral = Set(
        "in of at the and for to bei der des die das und mit fur von de du et en re rel relative relativ relatif ref reference "
            + "normalised normalized norm");
    private static readonly HashSet<string> Frequency = Set(
        "f fr freq frequency frequencies frequenz frequence frecuencia frequenza centre center mid band third octave oct terz "
            + "mittenfrequenz nominal exact");
    private static readonly HashSet<string> Levels = Set("l level levels pegel niveau nivel livello");
    private static readonly HashSet<string> Responses = Set(
        "response resp frequenzgang reponse respuesta risposta magnitude mag amplitude ubertragungsmass");
    private static readonly HashSet<string> Sensitivities = Set("sensitivity sens empfindlichkeit sensibilite sensibilidad sensibilita");
    private static readonly HashSet<string> FreeField = Set("free freefield ff freifeld frei libre libero");
    private static readonly HashSet<string> Diffuse = Set("diffuse diffus diffusefield diffusfeld random difuso diffuso");
    private static readonly HashSet<string> Pressure = Set("pressure druck druckfeld pression presion pressione");
    private static readonly HashSet<string> Actuator = Set("actuator aktuator electrostatic elektrostatisch actionneur");
    private static readonly HashSet<string> FieldWords = Set(
        "field feld schallfeld sound champ campo incidence einfall einfallswinkel angle winkel incident");
    private static readonly HashSet<string> Phase = Set("phase phases phasengang phasenwinkel phas phi fase");
    private static readonly HashSet<string> Uncertain = Set(
        "u unc uncertainty uncert uncertainties unsicherheit messunsicherheit incertitude incertidumbre incertezza u95 mu");
    private static readonly HashSet<string> Expanded = Set(
        "expanded exp erweiterte erweitert elargie expandida estesa measurement coverage factor k95");
    private static readonly HashSet<string> Standard = Set("standard std standardunsicherheit");
    private static readonly HashSet<string> DeviceWords = Set(
        "sn s n serial serialno serialnumber no nr number ser seriennummer mic microphone mikrofon device id gerat sonde");

    /// <summary>Whether a cell is a unit and nothing else, as in a row of units.</summary>
    public static bool IsUnitAlone(string text) => Of([text]) is { Meaning: not null } && UnitAlone().IsMatch(Folded(text));

    /// <summary>Reads what stands above one column.</summary>
    /// <param name="texts">From the top.</param>
    /// <param name="devicesOf">Ids of the devices that a text can stand for.</param>
    /// <param name="namesDevices">Whether a bare number or code is a serial number, since other columns name devices so.</param>
    public static HeaderMeaning Of(
        IReadOnlyList<string> texts, Func<string, IReadOnlyList<string>>? devicesOf = null, bool namesDevices = false)
    {
        if (texts.Count == 0) return new(null, "it has no header");
        var p = new Parts();
        // "Serial no." above the frequency says what the rest of its row holds.
        foreach (var text in texts) if (texts.Count == 1 || !Words(Folded(text)).All(DeviceWords.Contains)) p.Take(
            text, devicesOf, namesDevices);
        var (meaning, doubt) = p.Decide();
        return new(meaning, doubt)
        {
            AngleDeg = p.AngleDeg,
            Field = p.Field,
            RelativeToHz = p.RelativeToHz,
            Serial = p.Serial,
            Devices = p.Devices
        };
    }

    /// <summary>Whether lines above a table speak of corrections.</summary>
    public static bool SpeaksOfCorrection(string folded) => Correcting().IsMatch(folded);

    // The texts of one column as they are taken apart.
    private sealed class Parts
    {
        private readonly HashSet<string> _words = new(StringComparer.Ordinal);
        private readonly HashSet<string> _units = new(StringComparer.Ordinal);
        private readonly HashSet<double> _angles = [], _factors = [], _probabilities = [];
        private double? _factor;
        private bool _isCorrection, _isSubtraction, _isDifference, _hasSmallU, _hasOther;
        private string _whole = "";

        public double? AngleDeg { get; private set; }

        public double? RelativeToHz { get; private set; }

        public string? Serial { get; private set; }

        public IReadOnlyList<string> Devices { get; private set; } = [];

        public string? Field { get; private set; }

        public void Take(string text, Func<string, IReadOnlyList<string>>? devicesOf, bool namesDevices)
        {
            _whole += (_whole.Length > 0 ? " / " : "") + text;
            if (devicesOf?.Invoke(text.Trim()) is { Count: > 0 } named && !UnitAlone().IsMatch(Folded(text)))
            {
                (Serial, Devices) = (text.Trim(), named);
                return;
            }
            var rest = Folded(text);
            _isCorrection |= Correcting().IsMatch(rest);
            _isSubtraction |= CurveSayings.SpeaksOfSubtraction(rest);
            rest = CurveSayings.WithoutFactor(rest, k => { _factor = k; _factors.Add(k); });
            rest = CurveSayings.WithoutProbability(rest, p => _probabilities.Add(p));
            rest = Reference().Replace(rest, m =>
            {
                RelativeToHz = Number(m.Groups[1].Value) * (m.Groups[2].Value == "khz" ? 1000 : 1);
                return " ";
            });
            _isDifference |= CurveSayings.IsDifference(rest);
            rest = Absolute().Replace(rest, m => { _units.Add("dB re 1 V/Pa"); return " "; });
            rest = Linear().Replace(rest, m => { _units.Add(m.Groups[1].Value == "m" ? "mV/Pa" : "V/Pa"); return " "; });
            rest = Angle().Replace(rest, m =>
            {
                AngleDeg = Number(m.Groups[1].Value);
                _angles.Add(AngleDeg.Value);
                return " ";
            });
            rest = Units().Replace(rest, m => { _units.Add(Usual(m.Value)); return " "; });
            rest = Small().Replace(rest, " ").Trim(' ', '[', ']', '(', ')', ',', ':');
            if (devicesOf?.Invoke(rest) is { Count: > 0 } bare)
            {
                (Serial, Devices) = (rest, bare);
                return;
            }
            if (WithSerial().Match(rest) is { Success: true } m)
            {
                Serial = m.Groups[1].Value.ToUpperInvariant();
                Devices = devicesOf?.Invoke(Serial) ?? [];
                return;
            }
            if (namesDevices && BareSerial().IsMatch(rest))
            {
                Serial = rest.ToUpperInvariant();
                return;
            }
            _hasSmallU |= SmallU().IsMatch(text);
            _words.UnionWith(Words(rest));
        }

        public (ColumnMeaning? Meaning, string? Doubt) Decide()
        {
            Field = _words.Overlaps(Actuator) ? "actuator" : _words.Overlaps(FreeField) ? "free-field"
                : _words.Overlaps(Diffuse) ? "diffuse" : _words.Overlaps(Pressure) ? "pressure" : null;
            var isPhase = _words.Overlaps(Phase) || _units.Contains("rad");
            var isUncertain = _words.Overlaps(Uncertain);
            if (isPhase)
            {
                return _words.Overlaps(Levels) || _units.Contains("dB") || _isCorrection
                    ? Ask("speaks of a phase and of a level") : (new(ColumnKind.Phase), null);
            }
            if (_isSubtraction) return Ask(
                "speaks of a subtraction or a turned sign: figures to be subtracted from readings are a response, figures to be added are "
                    + "corrections");
            if (_isCorrection) return Ask(
                isUncertain ? "speaks of a correction and of an uncertainty"
                    : "speaks of a correction, whose sign is that of a response turned round");
            if (_words is { Count: 0 } && _units.Count == 0 && AngleDeg is null && Serial is null && _factor is null) return Ask(
                "says nothing that is known");
            if (_isDifference) return Ask("is of differences between angles of incidence or fields, which are no response");
            if (_angles.Count > 1) return Ask("names several angles of incidence");
            _hasOther = _words.Any(w => !Known(w)) || AngleDeg is < 0 or > 180;
            if (_hasOther) return Ask("holds words that are not known");
            if (isUncertain) return Uncertainty();
            if ((_words.SetEquals(["k"]) || _words.SetEquals(["k", "factor"]) || _words.SetEquals(["coverage", "factor"]))
                && _units.Count == 0)
                return (new(ColumnKind.Factor), null);
            if (_words.Contains("k") || _words.Overlaps(Expanded) || _words.Overlaps(Standard) || _factor is not null
                || _probabilities.Count > 0) return Ask("speaks of a coverage factor or probability");
            return _units.IsSubsetOf(["Hz", "kHz"]) && AngleDeg is null && Serial is null
                && (_units.Count == 1 || _words.Overlaps(Frequency))
                ? OfFrequency() : Level();
        }

        private (ColumnMeaning?, string?) OfFrequency() =>
            _words.Any(w => !Frequency.Contains(w) && !Neutral.Contains(w) && !int.TryParse(w, out _)) || _units.Count > 1
                ? Ask("speaks of a frequency and of something else")
                : (new(ColumnKind.Frequency, _units.FirstOrDefault() ?? ""), null);

        private (ColumnMeaning?, string?) Uncertainty()
        {
            if (_units.Count > 1 || _units.Overlaps(["Hz", "kHz", "°", "dB re 1 V/Pa"])) return Ask(
                "speaks of an uncertainty in a unit that cannot be");
            var unit = _units.FirstOrDefault() switch { "%" => "%", "mV/Pa" or "V/Pa" => "linear", "dB" => "dB", _ => "" };
            // By JCGM 100 a small u is a standard uncertainty, a capital one expanded; many do not keep to it.
            if (_hasSmallU && _factor is null) return Ask("may be a standard uncertainty (u) or an expanded one (U)");
            if (_words.Overlaps(Standard) && _factor is not (null or 1)) return Ask("speaks of a standard uncertainty and of a factor");
            if (_factors.Count > 1) return Ask("states several coverage factors");
            double? factor = _words.Overlaps(Standard) ? 1 : _factor;
            foreach (var p in _probabilities)
            {
                if (factor is null && !CoverageProbability.IsUsual(p)) return Ask(
                    $"states a coverage probability of {CurveSayings.Percent(p)} and no coverage factor");
                if (factor is { } k && !CoverageProbability.Fits(k, p)) return Ask(FormattableString.Invariant(
                    $"states k = {k} and a coverage probability of {CurveSayings.Percent(p)}, which contradict each other"));
            }
            return (new(ColumnKind.Uncertainty, unit, factor), null);
        }

        private (ColumnMeaning?, string?) Level()
        {
            if (_words.Overlaps(Frequency) || _units.Overlaps(["Hz", "kHz"])) return Ask("speaks of a frequency and of something else");
            if (_units.Count > 1 || _units.Overlaps(["%", "°"])) return Ask("has a unit that is none of a level");
            if (Field == "actuator") return Ask("is a response to an actuator, which is none in a sound field");
            if (_units.Contains("dB re 1 V/Pa") || _units.Contains("mV/Pa") || _units.Contains("V/Pa"))
                return RelativeToHz is null ? (new(ColumnKind.Sensitivity, _units.First(), AngleDeg: AngleDeg), null)
                    : Ask("has two references");
            if (_words.Overlaps(Sensitivities) && RelativeToHz is null) return Ask("is a sensitivity without a unit or a reference");
            var isLevel = _units.Contains("dB") || _words.Overlaps(Levels) || RelativeToHz is not null;
            if (isLevel || (AngleDeg is not null && Serial is null && !_words.Overlaps(Responses))) return (
                new(ColumnKind.Level, "dB", AngleDeg: AngleDeg), null);
            return Ask("has no unit");
        }

        private bool Known(string w) =>
            Neutral.Contains(w) || Frequency.Contains(w) || Levels.Contains(w) || Responses.Contains(w) || Sensitivities.Contains(w)
            || FreeField.Contains(w) || Diffuse.Contains(w) || Pressure.Contains(w) || Actuator.Contains(w) || FieldWords.Contains(w)
            || Uncertain.Contains(w) || Expanded.Contains(w) || Standard.Contains(w) || w == "k"
            || (Serial is not null && DeviceWords.Contains(w)) || (w is "1" or "3" && _words.Overlaps(Frequency));

        private (ColumnMeaning?, string?) Ask(string why) => (null, $"its header '{_whole}' {why}");
    }

    /// <summary>Small letters without marks; the table is our own, since nothing normalises under invariant globalization.</summary>
    internal static string Folded(string text) => string.Concat(text.ToLowerInvariant().Select(c => c switch
    {
        'ä' or 'á' or 'à' or 'â' or 'ã' => "a",
        'é' or 'è' or 'ê' or 'ë' => "e",
        'í' or 'ì' or 'î' or 'ï' => "i",
        'ö' or 'ó' or 'ò' or 'ô' or 'õ' => "o",
        'ü' or 'ú' or 'ù' or 'û' => "u",
        'ç' => "c",
        'ñ' => "n",
        'ß' => "ss",
        '\u00A0' or '\u202F' or '_' or '\uFEFF' => " ",
        'º' or '˚' => "°",
        'φ' or 'ϕ' => " phi ",
        _ => c.ToString(),
    }));

    private static string[] Words(string folded) =>
        folded.Split([.. folded.Where(c => !char.IsLetterOrDigit(c)).Distinct()], StringSplitOptions.RemoveEmptyEntries);

    private static string Usual(string unit) =>
        unit switch { "hz" => "Hz", "khz" => "kHz", "db" => "dB", "%" => "%", "rad" => "rad", _ => "°" };

    internal static double Number(string text) => double.Parse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture);

    private static HashSet<string> Set(string words) => new(words.Split(' '), StringComparer.Ordinal);

    [GeneratedRegex(@"\bcorr|korr|compens|kompens|to be added|\badd\b|addier|a "
        + @"ajouter|subtract|abzu|inverse|\binv\b|filter|deviation|abweichung|\berror|fehler")]
    private static partial Regex Correcting();

    [GeneratedRegex(@"\b(?:re|rel|ref|relative|relativ|bezogen|normali[sz]ed|norm)\b\.?:?"
        + @"\s*(?:to|auf|at|bei)?\s*(\d+(?:[.,]\d+)?)\s*(k?hz)\b")]
    private static partial Regex Reference();

    [GeneratedRegex(@"\bdb\s*[\[(]?\s*(?:(?:re|rel|ref)\b\.?:?)?\s*(?:1(?:[.,]0)?\s*)?v\s*/\s*pa\b\s*[\])]?")]
    private static partial Regex Absolute();

    [GeneratedRegex(@"(?<![a-z0-9])(m?)v\s*/\s*pa\b")]
    private static partial Regex Linear();

    [GeneratedRegex(@"(?<![\d.,-])(\d+(?:[.,]\d+)?)\s*(?:°|deg\b|degrees?\b|grad\b)")]
    private static partial Regex Angle();

    [GeneratedRegex(@"\b(?:in|of|re|rel)\b")]
    private static partial Regex Small();

    [GeneratedRegex(@"\bkhz\b|\bhz\b|\bdb\b|°|\bdeg\b|\bdegrees?\b|\bgrad\b|\brad\b|%")]
    private static partial Regex Units();

    [GeneratedRegex(@"^\s*[\[(]?\s*(?:khz|hz|db|%|°|deg|degrees?|grad|rad|m?v\s*/\s*pa|db\s*(?:re|rel)\.?\s*.*)\s*[\])]?\s*$")]
    private static partial Regex UnitAlone();

    [GeneratedRegex(@"^(?:microphone|mikrofon|mic|device)?\s*(?:s/n|sn|serial(?: number| no\.?)?|ser\.? "
        + @"?no\.?|seriennummer|mic|microphone|device)\s*[:.#-]?\s*([a-z0-9][a-z0-9/-]*\d[a-z0-9/-]*)$")]
    private static partial Regex WithSerial();

    [GeneratedRegex(@"^(?=.*\d)[a-z0-9][a-z0-9/-]{2,}$")]
    private static partial Regex BareSerial();

    [GeneratedRegex(@"(?<![A-Za-z])u(?![A-Za-z0-9])")]
    private static partial Regex SmallU();
}
