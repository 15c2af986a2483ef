namespace MicRegister.Register.Devices;

/// <summary>
/// Which devices the name of a file speaks of: whose serial number or inventory code stands in it. It tells all that there are, and how
/// sure each is; what is to be done where it is not one is for a person.
/// </summary>
/// <remarks>
/// A name is cut at everything that is no letter and no digit, and a serial number in the same way, so that <c>gp_12.pdf</c> holds
/// <c>GP-12</c>, and 41001 never holds 4100. Words for a serial number may stand right before it: <c>sn41001</c>.
/// </remarks>
public sealed class SerialsInNames
{
    private const int MostPieces = 6;
    private const int MostName = 260;
    private const int LeastAlike = 3;

    private static readonly HashSet<string> WordsForSerial = new(StringComparer.Ordinal)
    {
        "S", "SN", "NO", "NR", "SER", "SERNO", "SERNR", "SERIAL", "SERIALNO", "SERIALNUMBER", "SERIENNUMMER",
    };

    private readonly Dictionary<string, List<(string Device, string Text)>> _written = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<(string Device, string Text)>> _alike = new(StringComparer.Ordinal);

    /// <param name="known">Ids of devices with what they are called by; several texts may be of one device, and one of several.</param>
    public SerialsInNames(IEnumerable<(string Device, string? Text)> known)
    {
        foreach (var (device, text) in known)
        {
            if (string.IsNullOrWhiteSpace(text) || Pieces(text) is not { Count: > 0 } pieces) continue;
            Add(_written, string.Join(' ', pieces.Select(p => p.Text)), (device, text));
            if (DeviceIdentity.LookAlike(text) is { Length: > 0 } alike) Add(_alike, alike, (device, text));
        }
    }

    /// <summary>All devices of a register, by serial number and inventory code.</summary>
    public static SerialsInNames Of(Register register) => new(register.DeviceIds.Select(id => register.Device(id)!)
        .SelectMany(d => new[] { (d.Id, d.Serial), (d.Id, d.Text(DeviceField.InventoryCode)) }));

    /// <summary>The one device that a name names without doubt; null where it names none or several, or only something like it.</summary>
    public static string? Only(IReadOnlyList<SerialInName> found) => found is [{ IsWritten: true } one] ? one.Device : null;

    /// <summary>The devices that a name speaks of, each once: those that are written first, then in the order of ids.</summary>
    /// <param name="fileName">Name of the file, with or without its ending.</param>
    public IReadOnlyList<SerialInName> Find(string fileName)
    {
        var pieces = Pieces(Stem(fileName));
        var written = new List<(SerialInName Found, int From, int To)>();
        var alike = new List<(SerialInName Found, int From, int To)>();
        foreach (var span in Spans(pieces))
        {
            if (span.IsWhole && _written.TryGetValue(span.Written, out var same))
                written.AddRange(same.Select(d => (new SerialInName(d.Device, d.Text, true), span.From, span.To)));
            // A letter or two is like too much; what has no digit is a word.
            if (span.Joined.Length < LeastAlike || !span.Joined.Any(char.IsDigit)) continue;
            if (_alike.TryGetValue(DeviceIdentity.LookAlike(span.Joined), out var near))
                alike.AddRange(near.Select(d => (new SerialInName(d.Device, d.Text, false), span.From, span.To)));
        }
        // Where a serial number is written to the letter, nobody need ask what it looks like.
        alike.RemoveAll(a => written.Exists(w => w.From < a.To && a.From < w.To));
        return [.. written.Concat(alike).Select(f => f.Found).GroupBy(f => f.Device, StringComparer.Ordinal)
            .Select(g => g.OrderByDescending(f => f.IsWritten).First())
            .OrderByDescending(f => f.IsWritten).ThenBy(f => f.Device, StringComparer.Ordinal)];
    }

    private static void Add(
        Dictionary<string, List<(string, string)>> index, string key, (string Device, string Text) known)
    {
        if (!index.TryGetValue(key, out var all)) index[key] = all = [];
        if (!all.Contains(known)) all.Add(known);
    }

    // An ending has letters: what stands behind the point of 41001.5 belongs to the number.
    private static string Stem(string fileName)
    {
        var name = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        if (name.Length > MostName) name = name[..MostName];
        var point = name.LastIndexOf('.');
        return point > 0 && point < name.Length - 1 && char.IsLetter(name[point + 1]) && name.Length - point <= 6 ? name[..point] : name;
    }

    private static List<Piece> Pieces(string text)
    {
        var pieces = new List<Piece>();
        // Digits of any script are those of this one.
        var plain = string.Concat(text.ToUpperInvariant().Select(c => char.IsDigit(c) ? (char)('0' + (int)char.GetNumericValue(c)) : c));
        for (var i = 0; i < plain.Length; i++)
        {
            if (!char.IsLetterOrDigit(plain[i])) continue;
            var from = i;
            while (i < plain.Length && char.IsLetterOrDigit(plain[i])) i++;
            pieces.Add(new(plain[from..i], from));
        }
        return pieces;
    }

    // Every run of pieces, and of what begins or ends within one where letters and digits meet.
    private static IEnumerable<Span> Spans(List<Piece> pieces)
    {
        for (var first = 0; first < pieces.Count; first++)
        {
            for (var last = first; last < Math.Min(pieces.Count, first + MostPieces); last++)
            {
                foreach (var begin in Begins(pieces[first].Text))
                {
                    foreach (var end in Ends(pieces[last].Text))
                    {
                        if (first == last && end <= begin) continue;
                        var texts = pieces.GetRange(first, last - first + 1).ConvertAll(p => p.Text);
                        texts[^1] = texts[^1][..end];
                        texts[0] = texts[0][begin..];
                        var isWhole = end == pieces[last].Text.Length
                            && (begin == 0 || WordsForSerial.Contains(pieces[first].Text[..begin]));
                        yield return new(
                            string.Join(' ', texts), string.Concat(texts), pieces[first].At + begin, pieces[last].At + end, isWhole);
                    }
                }
            }
        }
    }

    private static IEnumerable<int> Begins(string piece) => Changes(piece).Prepend(0);

    private static IEnumerable<int> Ends(string piece) => Changes(piece).Append(piece.Length);

    private static IEnumerable<int> Changes(string piece) =>
        Enumerable.Range(1, piece.Length - 1).Where(i => char.IsDigit(piece[i]) != char.IsDigit(piece[i - 1]));

    private readonly record struct Piece(string Text, int At);

    private readonly record struct Span(string Written, string Joined, int From, int To, bool IsWhole);
}

/// <summary>A device that the name of a file speaks of.</summary>
/// <param name="Device">Its id.</param>
/// <param name="Text">Its serial number or inventory code.</param>
/// <param name="IsWritten">Whether that stands there as it is, but for capitals and what parts it; otherwise something like
/// it.</param>
public sealed record SerialInName(string Device, string Text, bool IsWritten);
