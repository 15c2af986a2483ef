using System.Globalization;
using System.Xml;
using System.Xml.Linq;

namespace MicRegister.Documents.DigitalCertificates;

/// <summary>Reads digital calibration certificates (DCC) of schema 3, with quantities of D-SI to 2.1 and from 2.2.</summary>
/// <remarks>Elements are known by their local names in the namespaces https://ptb.de/dcc and https://ptb.de/si; no schema is needed or
/// fetched.</remarks>
public static class DigitalCertificateFile
{
    private const string Namespace = "https://ptb.de/dcc";
    private const int MostBytes = 25 << 20;
    private const int MostCharacters = 20_000_000;
    private const int MostDepth = 64;
    private const int NewestMinor = 3;

    /// <summary>Reads a certificate.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <exception cref="FormatException">It is none, or damaged; the message says why.</exception>
    public static DigitalCertificate Read(Stream content, string name)
    {
        if (content.Length > MostBytes) throw new FormatException($"{name} has {content.Length} bytes; at most {MostBytes} are allowed.");
        XElement root;
        try
        {
            Bound(content, name);
            content.Position = 0;
            using var reader = XmlReader.Create(content, Settings());
            root = XElement.Load(reader, LoadOptions.None);
        }
        catch (XmlException e)
        {
            throw new FormatException($"{name} is no XML that can be read: {e.Message}", e);
        }
        if (root.Name.LocalName != "digitalCalibrationCertificate" || root.Name.NamespaceName != Namespace)
            throw new FormatException($"{name} is no digital calibration certificate: it begins with {root.Name.LocalName}.");
        return new Reading(root).Certificate;
    }

    private static XmlReaderSettings Settings() => new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        MaxCharactersInDocument = MostCharacters,
        CloseInput = false,
    };

    // No certificate nests so deep; what does would take for ever to walk.
    private static void Bound(Stream content, string name)
    {
        content.Position = 0;
        using var reader = XmlReader.Create(content, Settings());
        while (reader.Read())
        {
            if (reader.Depth > MostDepth) throw new FormatException($"{name} nests more than {MostDepth} elements.");
        }
    }

    private sealed class Reading
    {
        private readonly List<string> _notes = [];
        private readonly List<DigitalQuantity> _quantities = [];

        public Reading(XElement root)
        {
            var version = (string?)root.Attribute("schemaVersion") ?? "";
            SayVersion(version);
            var administrative = At(root, "administrativeData");
            var core = At(administrative, "coreData");
            foreach (var result in All(root, "measurementResults").SelectMany(m => All(m, "measurementResult")).SelectMany(
                m => All(m, "results"))
                .SelectMany(r => All(r, "result")))
            {
                var resultName = Text(At(result, "name"));
                foreach (var data in All(result, "data")) Take(data, resultName);
            }
            if (_quantities.Count == 0) _notes.Add("No result with a figure was found.");
            Certificate = new(
                version, Text(At(core, "uniqueIdentifier")), Day(At(core, "beginPerformanceDate")), Day(At(core, "endPerformanceDate")),
                Text(At(At(At(administrative, "calibrationLaboratory"), "contact"), "name")),
                [.. All(At(administrative, "items"), "item").Select(Item)], _quantities, _notes);
            if (Certificate.Items.Count > 1) _notes.Add($"It is for {Certificate.Items.Count} items; which result is whose is not read.");
        }

        public DigitalCertificate Certificate { get; }

        private void SayVersion(string version)
        {
            var parts = version.Split('.');
            var isKnown = parts.Length >= 2 && parts[0] == "3"
                && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var minor)
                && minor <= NewestMinor;
            if (version.Length == 0) _notes.Add(
                "It does not say which version of the schema it follows: what is read here may be incomplete.");
            else if (!isKnown) _notes.Add(
                $"Version {version} of the schema is not known here (3.0 to 3.{NewestMinor} are): what is read may be incomplete.");
        }

        private void Take(XElement parent, string? result)
        {
            var (first, lengths) = (_quantities.Count, new List<(string Name, int Values)>());
            foreach (var child in parent.Elements())
            {
                if (child.Name.LocalName == "list") Take(child, result);
                if (child.Name.LocalName != "quantity") continue;
                var (name, refType) = (Text(At(child, "name")), (string?)child.Attribute("refType"));
                var values = SiQuantity.Read(child, name ?? result ?? "a result", _notes);
                if (values.Count == 0) continue;
                _quantities.Add(new(result, name, refType, values));
                lengths.Add((name ?? result ?? "a result", SiQuantity.Stated(child)));
            }
            SayUneven(parent, first, lengths);
        }

        // Lists beside each other are columns of a table: of different length they do not say which value belongs to which.
        private void SayUneven(XElement parent, int first, List<(string Name, int Values)> lengths)
        {
            var lists = lengths.FindAll(l => l.Values > 1);
            if (parent.Name.LocalName != "list" || lists.Select(l => l.Values).Distinct().Count() < 2) return;
            var uneven = "lists of different length stand beside each other ("
                + string.Join(", ", lists.Select(l => $"{l.Name}: {l.Values}")) + "), so that no value can be told to belong to another";
            _notes.Add($"In one table {uneven}.");
            for (var i = first; i < _quantities.Count; i++)
            {
                if (_quantities[i].Values.Count > 1) _quantities[i] = _quantities[i] with
                {
                    Values = [.. _quantities[i].Values.Select(v => v with { Remark = $"{v.Remark}; {uneven}" })],
                };
            }
        }

        private static DigitalItem Item(XElement item) => new(
            Text(At(item, "name")), Text(At(At(item, "manufacturer"), "name")), Text(At(item, "model")),
            All(At(item, "identifications"), "identification").Where(i => Text(At(i, "issuer")) == "manufacturer").Select(
                i => Text(At(i, "value"))).FirstOrDefault());

        private static XElement? At(XElement? parent, string name) => All(parent, name).FirstOrDefault();

        private static IEnumerable<XElement> All(XElement? parent, string name) =>
            parent?.Elements().Where(e => e.Name.LocalName == name) ?? [];

        // A name is a text in several languages: the first counts.
        private static string? Text(XElement? element) =>
            element?.DescendantsAndSelf().Where(e => !e.HasElements).Select(e => e.Value.Trim()).FirstOrDefault(t => t.Length > 0);

        private static DateOnly? Day(XElement? element) =>
            DateOnly.TryParseExact(
                Text(element)?.Split('T', 'Z', '+')[0], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
                    : null;
    }
}
