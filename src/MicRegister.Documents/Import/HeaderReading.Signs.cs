using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <content>Signs by which a header is taken apart.</content>
internal sealed partial record HeaderReading
{
    [GeneratedRegex(@"^(?!.*\bas\W*found).*\bfound\b", RegexOptions.IgnoreCase)]
    private static partial Regex FoundAlone();

    [GeneratedRegex(@"[\[(][^\])]*[\])]")]
    private static partial Regex Brackets();

    [GeneratedRegex(@"(?<![0-9])((?:19|20)[0-9][0-9])(?:[-/. ]([0-9]{1,2}))?(?![0-9])")]
    private static partial Regex YearIn();

    [GeneratedRegex(@"(?:^|[\s_.#(-])([0-9]{1,2})\s*[.)]?\s*$|(?<=[a-zA-Z])([0-9])\s*$|(?<=[a-zA-Z.]\s)([1-9])(?=\s[a-zA-Z])")]
    private static partial Regex IndexIn();

    [GeneratedRegex(@"(?:@|at|bei|à|a|bij|[(\[])?\s*([0-9]+(?:[.,][0-9]+)?)\s*(k?Hz)\s*[)\]]?", RegexOptions.IgnoreCase)]
    private static partial Regex FrequencyIn();

    [GeneratedRegex(@"^(?:no|not|non|kein|keine|ohne|sans|sin|senza|geen|without|former|ehemalig[a-z]*)(?![a-z])|(?<![a-z])(?:stands?|tripods?|stativ[a-z]*|holders?|clips?|brackets?|halter[a-z]*|cases?|boxes|box|koffer|set|sets|satz)(?![a-z])")]
    private static partial Regex OtherThings();

    [GeneratedRegex(@"(?<=[^\s([])\s+m?V\s*/\s*Pa(?=\s)")]
    private static partial Regex SensitivityUnit();

    [GeneratedRegex(@"^%\s*r\.?[hfv]\.?$|^%\s*[hu]\.?r\.?$", RegexOptions.IgnoreCase)]
    private static partial Regex HumidityUnit();

    [GeneratedRegex(@"[/&+,;|]|\s(?:and|und|et|y|e|en)\s")]
    private static partial Regex Joiner();

    [GeneratedRegex(@"€|[\[(]\s*(?:EUR|USD|CHF|GBP|\$|£)\s*[\])]|(?<![A-Za-z])(?:EUR|USD|CHF|GBP)(?![A-Za-z])")]
    private static partial Regex Money();

    [GeneratedRegex(@"^[A-Za-z]{1,6}[-_/.]?[0-9]{3,}$")]
    private static partial Regex CodeOfDevice();

    [GeneratedRegex(@"k\s*=|±|%")]
    private static partial Regex FactorIn();

    [GeneratedRegex(@"^\s*(?:(?<f>f[a-z0-9]{0,3})|(?<p>p[a-z0-9]{0,4})|(?<t>(?:t|ϑ|θ)[a-z0-9]{0,4}))\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Symbol();

    [GeneratedRegex(@"^[A-Za-z][a-z]+(?:[A-Z][a-z]*)+[0-9]{0,2}$")]
    private static partial Regex Camel();

    [GeneratedRegex(@"(?<=[a-z])(?=[A-Z])")]
    private static partial Regex Hump();

    [GeneratedRegex(@"^(.+?)\s(?:for|fur|pour|para|per|voor|with|mit|avec|con|met|of|de|du|di|del|della|van|des)\s|^(.+?)\sd'")]
    private static partial Regex Purpose();
}
