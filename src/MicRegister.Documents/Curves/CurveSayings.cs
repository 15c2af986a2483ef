using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Documents.Curves;

/// <summary>
/// What the text beside a table says of all its figures: each as the line that says it. It makes a column a question, since nobody can
/// tell whether a line means the table or something else.
/// </summary>
internal sealed partial class CurveSayings
{
    // What stands beside a table can speak of a serial number of something that was used, too.
    private const int LeastSerial = 3;

    private readonly string? _correction, _subtraction, _scale, _difference, _standard, _factorWithoutFigure;

    /// <summary>Reads the lines; a table that the program wrote itself keeps as comments what was settled already.</summary>
    public CurveSayings(IReadOnlyList<string> lines, bool isOwn)
    {
        if (isOwn) return;
        string? First(Func<string, bool> says) => lines.FirstOrDefault(l => says(HeaderWords.Folded(l)));
        _subtraction = First(l => Subtracting().IsMatch(l));
        _correction = First(HeaderWords.SpeaksOfCorrection);
        _scale = First(l => Scaling().IsMatch(l));
        _difference = First(IsDifference);
        _standard = First(l => StandardUncertainty().IsMatch(MultipliedStandard().Replace(l, " ")) || Sigma().IsMatch(l));
        Factors = [.. lines.SelectMany(l => FactorsIn(HeaderWords.Folded(l))).Distinct()];
        Probabilities = [.. lines.SelectMany(l => ProbabilitiesIn(HeaderWords.Folded(l))).Distinct()];
        _factorWithoutFigure = Factors.Count > 0 ? null : First(l => FactorNamed().IsMatch(l));
        Serials = [.. lines.SelectMany(l => SerialsIn(HeaderWords.Folded(l))).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Coverage factors that are stated.</summary>
    public IReadOnlyList<double> Factors { get; } = [];

    /// <summary>Coverage probabilities that are stated, from 0 to 1.</summary>
    public IReadOnlyList<double> Probabilities { get; } = [];

    /// <summary>Serial numbers that are stated, but those of calibrators, preamplifiers and other things that were used.</summary>
    public IReadOnlyList<string> Serials { get; } = [];

    /// <summary>Why a column of levels cannot be taken for what its header says; null where nothing stands against it.</summary>
    public string? AgainstLevel(string header)
    {
        List<string> reasons = [];
        if (_subtraction is not null) reasons.Add(
            $"the text beside the table ('{Short(_subtraction)}') speaks of a subtraction or a turned sign: figures to be subtracted from "
                + "readings are a response (level), figures to be added are corrections");
        else if (_correction is not null) reasons.Add(
            $"the text beside the table speaks of a correction, and its header '{header}' does not");
        if (_scale is not null) reasons.Add(OtherUnit(_scale));
        if (_difference is not null) reasons.Add(
            $"the text beside the table ('{Short(_difference)}') speaks of differences between angles of incidence or fields, which are no "
                + "response");
        return reasons.Count == 0 ? null : string.Join("; and ", reasons);
    }

    /// <summary>Why a column of uncertainties cannot be taken for what its header says; null where nothing stands against it.</summary>
    /// <param name="header">The header.</param>
    /// <param name="factor">Coverage factor that the header states; null where it states none.</param>
    /// <param name="byRow">Coverage factors that a column of its own states; null where there is none.</param>
    public string? AgainstUncertainty(string header, double? factor, IReadOnlyList<double>? byRow)
    {
        if (_scale is not null) return OtherUnit(_scale);
        if (factor is null && (Factors.Count > 1 || _standard is not null))
            return $"its header '{header}' states no coverage factor, and the text above speaks of several or of a standard uncertainty";
        if (factor is null && byRow is null && _factorWithoutFigure is not null)
            return $"the text beside the table ('{Short(_factorWithoutFigure)}') speaks of a coverage factor that is no figure";
        if (factor is { } own && Factors.Count > 0 && !Factors.Contains(own)) return string.Create(
            CultureInfo.InvariantCulture,
            $"its header '{header}' states k = {own}, and the text beside the table k = {string.Join(" and ", Factors.Select(Plain))}");
        IReadOnlyList<double> known = byRow ?? (factor is { } stating ? [stating] : Factors.Count == 1 ? Factors : []);
        foreach (var p in Probabilities)
        {
            var said = $"the text beside the table states a coverage probability of {Percent(p)}";
            if (known.Count == 0 && !CoverageProbability.IsUsual(p)) return $"{said}, and nothing a coverage factor";
            foreach (var each in known)
            {
                if (!CoverageProbability.Fits(each, p)) return $"{said}, which k = {Plain(each)} contradicts";
            }
        }
        return null;
    }

    /// <summary>Whether a text speaks of levels relative to another angle of incidence or field.</summary>
    public static bool IsDifference(string folded) => Difference().IsMatch(folded);

    /// <summary>Whether a text speaks of figures to be subtracted, or of a turned sign.</summary>
    public static bool SpeaksOfSubtraction(string folded) => Subtracting().IsMatch(folded);

    /// <summary>Coverage factors that a text states.</summary>
    public static IEnumerable<double> FactorsIn(string folded) =>
        FactorStated().Matches(folded).Select(m => HeaderWords.Number(m.Groups[1].Value));

    /// <summary>A text without the coverage factor that it states.</summary>
    public static string WithoutFactor(string folded, Action<double> stated) => FactorStated().Replace(folded, m =>
    {
        stated(HeaderWords.Number(m.Groups[1].Value));
        return " ";
    });

    /// <summary>A text without the coverage probabilities that it states, as a header does.</summary>
    public static string WithoutProbability(string folded, Action<double> stated) => HeaderProbability().Replace(folded, m =>
    {
        stated(Share(m));
        return " ";
    });

    /// <summary>A probability as people write it: 99.7 %.</summary>
    public static string Percent(double probability) => Plain(Math.Round(probability * 100, 4)) + " %";

    private static string OtherUnit(string line) =>
        $"the text beside the table ('{Short(line)}') speaks of another unit than dB, or of figures that were multiplied; such figures are "
            + "not read: write them in dB first";

    // A percentage is a coverage probability only in a line that speaks of one; humidity is written in percent too.
    private static IEnumerable<double> ProbabilitiesIn(string folded)
    {
        var stated = ProbabilityStated().Matches(folded).Select(Share);
        return CoverageSpoken().IsMatch(folded) ? stated.Concat(PercentStated().Matches(folded).Select(Share)) : stated;
    }

    private static double Share(Match m)
    {
        var value = HeaderWords.Number(m.Groups["p"].Value);
        return value > 1 ? value / 100 : value;
    }

    private static IEnumerable<string> SerialsIn(string folded) => SerialStated().Matches(folded)
        .Where(m => !Used().IsMatch(folded[..m.Index]))
        .Select(m => m.Groups[1].Value.TrimEnd('-', '/').ToUpperInvariant()).Where(s => s.Length >= LeastSerial);

    private static string Plain(double figure) => figure.ToString("0.####", CultureInfo.InvariantCulture);

    private static string Short(string text) => text.Length > 80 ? text[..80] + "…" : text;

    [GeneratedRegex(@"subtract|\bsubtr\b|deduct|abzieh|abgezog|abzuzieh|\babzug|soustra|retranch|\brestar|sottra"
        + @"|(?:opposite|invers|other|wrong|chang|revers|turn|flip|umgekehrt|entgegengesetzt)\w*\s+"
        + @"(?:of\s+)?(?:in\s+)?(?:the\s+)?(?:signs?|vorzeichen)\b"
        + @"|\b(?:signs?|vorzeichen)\s+(?:is|are|was|were|has|have|sind|ist|been)?\s*(?:been\s+)?"
        + @"(?:opposite|invers|invert|chang|revers|turn|flip|umgekehrt|umgedreht|gedreht)"
        + @"|\bnegat(?:ed|ive of)\b|insertion loss|einfugungsda")]
    private static partial Regex Subtracting();

    [GeneratedRegex(@"\bunits?\s*(?:of|is|are|:|=)?\s*[(\[]?\s*\d+(?:[.,]\d+)?\s*(?:/\s*\d+\s*)?m?(?:db|decibel)"
        + @"|\beinheit(?:en)?\s*(?:von|ist|:|=)?\s*\d+(?:[.,]\d+)?\s*(?:/\s*\d+\s*)?m?db"
        + @"|\bin\s+(?:steps\s+of\s+)?(?:0[.,]0*1|10|100|1\s*/\s*10+)\s*(?:db|decibel)|\b1\s*/\s*10+\s*(?:of\s+an?\s+)?(?:db|decibel)"
        + @"|\b(?:centi|deci|milli)-?bels?\b(?<!\bdecibels?)|\b(?:cb|mdb|cdb|ddb|millidb|neper)\b"
        + @"|\b(?:tenths?|hundredths?|thousandths?|zehntel|hundertstel|tausendstel|dixiemes?|centiemes?)\s*-?\s*"
        + @"(?:(?:of\s+)?(?:an?\s+)?(?:db|decibel)|de\s+(?:db|decibel))"
        + @"|\bin\s+(?:tenths|hundredths|zehnteln?)\b(?!\s+oct)"
        + @"|\b(?:values?|levels?|figures?|data|results?|werte|pegel|db|column)\b[^.;]*?(?:\bx|×|\*|\btimes|\bmal)\s*10+\b"
        + @"|\b10+\s*(?:x|×|\*|times|mal)\s*(?:the\s+)?(?:values?|levels?|werte|pegel|db)\b"
        + @"|\bmultipli(?:ed|ziert)\s+(?:by|with|mit)\s+(?:10+|ten|a hundred|a thousand)\b|\bdivide\s+(?:\w+\s+)?by\s+10+\b"
        + @"|\bscal(?:ed|e)\s+(?:by|factor)\b|\bskaliert\b")]
    private static partial Regex Scaling();

    private const string AnotherAngle = @"[(\[]?(?:(?:\d+(?:[.,]\d+)?|zero|null)\s*(?:°(?!\s*[cf]\b)|deg(?:rees?)?\b(?!\s*[cf]\b)|grad\b)"
        + @"|frontal|front\b|normal incidence|on[- ]?axis|axial|axis)";

    private const string AnotherField =
        @"(?:the\s+)?(?:free[- ]?field|freifeld|diffuse|diffusfeld|random|pressure|druck)(?!\s*(?:of\s*)?\d)";

    private const string Reference =
        @"(?:relative|rel|relativ|relatif|referred|referenced|normali[sz]ed|norm|normiert|bezogen|differen\w*|compared)"
        + @"\b\.?\s*(?:levels?\s+|response\s+|pegel\s+)?(?:to|auf|zu|zum|zur|from|with|between|gegen|against|of|a)\b\s*";

    // "Relative response at 30°" is a response; "relative to 0°", "re 0°" and "rel. 0°" are differences.
    [GeneratedRegex(@"\b(?:re|ref|versus|vs|minus|less)\b\.?:?\s*(?:the\s+)?(?:(?:that|level|response)\s+(?:at|for)\s+)?" + AnotherAngle
        + @"|\b" + Reference + @"(?:(?:the|that|those|der|die|dem|den|levels?|response|pegel|at|of|for|bei|von|incidence|direction"
        + @"|sound)\b\s*)*"
        + AnotherAngle + @"|\b(?:rel|relative|relativ|norm|normali[sz]ed)\b\.?\s*" + AnotherAngle
        + @"|\b(?:(?:re|minus|less|versus|vs)\b\s*|" + Reference + ")" + AnotherField
        + @"|\blevel differences?|pegeldifferenz|\bdifferences? (?:of|in) levels?")]
    private static partial Regex Difference();

    [GeneratedRegex(@"standard\s*(measurement\s*)?uncert|standardunsicherheit|standardmessunsicherheit|incertitude[- ]type")]
    private static partial Regex StandardUncertainty();

    // What certificates say of an expanded uncertainty: "... is the standard uncertainty multiplied by the coverage factor k = 2".
    [GeneratedRegex(@"(?:standard\s*(?:measurement\s*)?uncertainty|standard(?:mess)?unsicherheit)(?:\s+of\s+(?:the\s+)?measurement)?"
        + @"\s*,?\s*(?:which\s+is\s+)?multipli(?:ed|ziert)")]
    private static partial Regex MultipliedStandard();

    [GeneratedRegex(@"(?:\d|\bone|\btwo|\bthree|\bein)\s*-?\s*(?:sigma|σ|standard deviation|s\.d\.)|\bsigma\b")]
    private static partial Regex Sigma();

    [GeneratedRegex(@"(?:\bk(?:p|95)?\s*(?:=|:|≈|~|≃|≅)|\b(?:coverage factor|erweiterungsfaktor|uberdeckungsfaktor)(?: k)?\s*"
        + @"(?:=|:|of|is|von|ist)?)\s*(\d(?:[.,]\d+)?)")]
    private static partial Regex FactorStated();

    [GeneratedRegex(@"\bk(?:p|95)?\s*[=≈]|\bcoverage factor|erweiterungsfaktor|uberdeckungsfaktor|facteur d.?elargissement"
        + @"|fattore di copertura|factor de cobertura")]
    private static partial Regex FactorNamed();

    [GeneratedRegex(@"(?<![\d.,])(?<p>[5-9]\d(?:[.,]\d+)?|100)\s*%|\bp\s*[=:≈]\s*(?<p>0?[.,]\d+|[5-9]\d(?:[.,]\d+)?\b)")]
    private static partial Regex HeaderProbability();

    [GeneratedRegex(@"\bp\s*[=:≈~]\s*(?:(?<p>[5-9]\d(?:[.,]\d+)?|100)\s*%|(?<p>0?[.,][5-9]\d*)(?!\s*(?:k?pa|hpa|m?bar|atm|psi)\b))"
        + @"|(?:probability|confidence(?: level)?|level of confidence|wahrscheinlichkeit)\s*(?:p\b\s*)?(?:=|:|of|is|von)?\s*"
        + @"(?:about|approximately|approx\.?|ca\.?|circa|etwa|~|≈)?\s*(?<p>0?[.,][5-9]\d*)")]
    private static partial Regex ProbabilityStated();

    [GeneratedRegex(@"coverage|confiden|probab|wahrschein|vertrauens|uberdeck|confiance|uncert|unsicherheit|incertitude|incerte"
        + @"|incertidumbre|\bu\b|\bk\s*=")]
    private static partial Regex CoverageSpoken();

    [GeneratedRegex(@"(?<![\d.,])(?<!(?:\brh|r\.\s?h\.?|humidity|feuchte|humidite|\brel\.?|\brf)\W*"
        + @"(?:of|is|was|from|:|=|von)?\W*(?:\d+\W+)?)"
        + @"(?<p>[5-9]\d(?:[.,]\d+)?|100)\s*%(?!\s*(?:r\.?\s?h|r\.?\s?f|rel|hum|feucht))")]
    private static partial Regex PercentStated();

    [GeneratedRegex(@"\b(?:s/n|sn|serial(?:\s*-?\s*(?:number|no\b\.?|nr\b\.?|num\b\.?))?|ser\.?\s*(?:no|nr)\b\.?|seriennummer"
        + @"|serien-?\s*nr\.?|numero de serie)"
        + @"(?:\s+(?:of\s+(?:the\s+)?|des\s+)(?:microphone|mikrofons?|device))?\s*[:.#=;,|\t-]*\s*((?=[a-z/-]*\d)[a-z0-9][a-z0-9/-]*)")]
    private static partial Regex SerialStated();

    [GeneratedRegex(@"(?:pre-?\s?amp\w*|vorverstarker|calibrator|kalibrator|pistonphone|pistonfon|amplifier|verstarker|analy[sz]er"
        + @"|generator|reference\s+(?:mic\w*|standard)|coupler|kuppler|adapter|barometer|thermometer|loudspeaker|lautsprecher|actuator|aktuator)"
        + @"\b[^;,|\t]*[;,|\t:]?\s*$")]
    private static partial Regex Used();
}
