using System.Globalization;
using System.Xml.Linq;

namespace MicRegister.Documents.DigitalCertificates;

/// <summary>Values of D-SI: one, or a list in which one unit, factor or uncertainty may stand for all.</summary>
internal static class SiQuantity
{
    /// <summary>Namespace of D-SI, to 2.1 and from 2.2.</summary>
    public const string Namespace = "https://ptb.de/si";

    private const string ListSuffix = "XMLList";
    private const int MostValues = 100_000;

    private static readonly HashSet<string> Forms = new(StringComparer.Ordinal)
    {
        "real", "realListXMLList", "constant", "hybrid", "list", "complex", "complexListXMLList",
    };

    /// <summary>The values of a quantity; none where it holds no figure, which is said in the notes.</summary>
    public static IReadOnlyList<DigitalValue> Read(XElement quantity, string name, List<string> notes)
    {
        foreach (var child in quantity.Elements())
        {
            // Of another namespace the same words may mean something else; passed over in silence it would look as if it were not there.
            if (Forms.Contains(child.Name.LocalName)
                && child.DescendantsAndSelf().FirstOrDefault(e => e.Name.NamespaceName != Namespace) is { } strange)
            {
                throw new FormatException($"{name}: element {strange.Name.LocalName} stands in the namespace "
                    + $"'{Short(strange.Name.NamespaceName)}'; allowed is {Namespace}.");
            }
            switch (child.Name.LocalName)
            {
                case "real" or "realListXMLList" or "constant":
                    return Values(child, name, notes);
                case "hybrid":
                    return Hybrid(child, name, notes);
                case "list":
                    return [.. child.Elements().Where(e => e.Name.LocalName is "real" or "constant").SelectMany(
                        e => Values(e, name, notes))];
                case "complex" or "complexListXMLList" or "noQuantity":
                    notes.Add($"{name}: {child.Name.LocalName} is not read.");
                    return [];
                default:
                    continue;
            }
        }
        return [];
    }

    /// <summary>How many values a quantity states, those that are no numbers among them.</summary>
    public static int Stated(XElement quantity) => quantity.Elements().Select(child => child.Name.LocalName switch
    {
        "hybrid" => child.Elements().Select(f => Words(f, "value").Count).DefaultIfEmpty(0).Max(),
        "list" => child.Elements().Count(e => e.Name.LocalName is "real" or "constant"),
        "real" or "realListXMLList" or "constant" => Words(child, "value").Count,
        _ => 0,
    }).FirstOrDefault(n => n > 0);

    // The same quantity in several units: one of them, with a known unit where there is one.
    private static List<DigitalValue> Hybrid(XElement hybrid, string name, List<string> notes)
    {
        var forms = hybrid.Elements().Where(e => e.Name.LocalName is "real" or "realListXMLList").ToList();
        var taken = forms.Find(f => Words(f, "unit") is [var unit, ..] && SiUnit.Usual(unit) is not null) ?? forms.FirstOrDefault();
        return taken is null ? [] : Values(taken, name, notes);
    }

    private static List<DigitalValue> Values(XElement real, string name, List<string> notes)
    {
        if (Numbers(real, "value", name) is not { Count: > 0 } values) return [];
        var units = Each(Words(real, "unit"), values.Count, name, "units");
        var uncertainty = SiUncertainty.Read(real, values, name);
        var read = new List<DigitalValue>();
        for (var i = 0; i < values.Count; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                notes.Add($"{name}: value {i + 1} is no number and is left out.");
                continue;
            }
            var unit = units.Count > 0 ? SiUnit.Usual(units[i]) : null;
            read.Add(new(
                values[i], unit ?? (units.Count > 0 ? units[i] : ""), unit is not null, uncertainty.Expanded?[i], uncertainty.Factor?[i],
                    uncertainty.Remark));
        }
        if (units.Count == 0 || read.Exists(v => !v.IsUnitKnown)) notes.Add(
            $"{name}: its unit {(units.Count > 0 ? $"'{units[0]}' is not known here" : "is not stated")}.");
        if (uncertainty.Expanded is null) notes.Add($"{name}: {uncertainty.Remark}.");
        return read;
    }

    /// <summary>Children of a name, with or without the ending of lists.</summary>
    public static IEnumerable<XElement> Children(XElement? parent, string name) =>
        parent?.Elements().Where(e => e.Name.LocalName == name || e.Name.LocalName == name + ListSuffix) ?? [];

    /// <summary>Figures of a child, parted by blanks; null where it is not there.</summary>
    /// <exception cref="FormatException">One of them is no figure.</exception>
    public static List<double>? Numbers(XElement? parent, string child, string name)
    {
        switch (Children(parent, child).Count())
        {
            case 0: return null;
            case > 1: throw new FormatException($"{name}: {child} stands twice; allowed is once.");
        }
        var words = Words(parent!, child);
        if (words.Count > MostValues) throw new FormatException($"{name}: {words.Count} values; at most {MostValues} are allowed.");
        return [.. words.Select(w => double.TryParse(w, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? number : throw new FormatException(
                $"{name}: {child} '{Short(w)}': allowed is a number with a point."))];
    }

    /// <summary>One for each value: as many as there are values, or one that holds for all.</summary>
    /// <exception cref="FormatException">It is neither.</exception>
    public static IReadOnlyList<T> Each<T>(IReadOnlyList<T> stated, int values, string name, string what) =>
        stated.Count == values || stated.Count == 0 ? stated
        : stated.Count == 1 ? [.. Enumerable.Repeat(stated[0], values)]
        : throw new FormatException($"{name}: {stated.Count} {what} stand beside {values} values; allowed are as many, or one for all.");

    private static List<string> Words(XElement parent, string child) =>
        [.. string.Join(' ', Children(parent, child).Select(c => c.Value)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)];

    private static string Short(string text) => text.Length > 40 ? text[..40] + "…" : text;
}
