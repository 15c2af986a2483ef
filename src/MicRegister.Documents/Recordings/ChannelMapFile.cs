using System.Text;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Checks;

namespace MicRegister.Documents.Recordings;

/// <summary>A person's mapping of recorded channels to stations: rows of file, channel, station. An empty file holds for all, an empty channel for a file of one.</summary>
public static class ChannelMapFile
{
    /// <summary>Reads a text table; a first row of headers is passed over.</summary>
    /// <exception cref="SheetException">A row is out of shape; the message names it.</exception>
    public static IReadOnlyList<ChannelMapping> Read(string text, string name)
    {
        using var content = new MemoryStream(Encoding.UTF8.GetBytes(text));
        var rows = new List<ChannelMapping>();
        foreach (var row in CsvSheet.Read(content, name, SheetLimits.Usual with { Rows = 20_000 }).Rows)
        {
            if (row.IsBlank) continue;
            string file = row.At(0).Text ?? "", channel = row.At(1).Text ?? "", station = row.At(2).Text ?? "";
            if (rows.Count == 0 && channel.Equals("channel", StringComparison.OrdinalIgnoreCase)) continue;
            if (station.Length == 0) throw new SheetException($"{name}, row {row.Number}: the station is missing; rows are file, channel, station.");
            int? number = null;
            if (channel.Length > 0) number = int.TryParse(channel, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) && n is > 0 and <= 1024 ? n : throw new SheetException($"{name}, row {row.Number}: channel '{channel}': allowed is a whole number from 1 to 1024.");
            rows.Add(new(file, number, station));
        }
        return rows;
    }
}
