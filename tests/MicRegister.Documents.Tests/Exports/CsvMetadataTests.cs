using System.Text;
using System.Text.Json;
using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>Expected members by the W3C's Metadata Vocabulary for Tabular Data, sections 5.3 to 5.8.</summary>
public sealed class CsvMetadataTests
{
    [Fact]
    public void It_describes_the_columns_in_order_with_what_the_header_holds()
    {
        var root = Written(Tables.Of([ExportCell.Of("41001"), ExportCell.Of(0.05012), ExportCell.Nothing]), "fleet.csv");

        Assert.Equal("http://www.w3.org/ns/csvw", root.GetProperty("@context")[0].GetString());
        Assert.Equal(("fleet.csv", "Microphones of Quillmere"), (Text(root, "url"), Text(root, "dc:title")));
        var columns = root.GetProperty("tableSchema").GetProperty("columns").EnumerateArray().ToList();
        Assert.Equal(["serial", "sensitivity-v-per-pa", "calibrated-on"], columns.Select(c => Text(c, "titles")));
        Assert.Equal(["serial", "sensitivity_v_per_pa", "calibrated_on"], columns.Select(c => Text(c, "name")));
        Assert.Equal(["string", "number", "string"], columns.Select(c => Text(c, "datatype")));
        Assert.Equal("V/Pa", Text(columns[1], "schema:unitText"));
        Assert.False(columns[0].TryGetProperty("schema:unitText", out _));
        Assert.Equal("Open-circuit sensitivity at 250 Hz.", Text(columns[1], "dc:description"));
    }

    [Fact]
    public void Provenance_and_notes_stand_in_it()
    {
        var root = Written(Tables.Of() with { Notes = ["Mind the gap."] }, "fleet.csv");

        Assert.Equal(["Mind the gap."], root.GetProperty("rdfs:comment").EnumerateArray().Select(n => n.GetString()));
        Assert.Equal(
            ["register=quillmere", "sequence=4711", "note==1"],
            root.GetProperty("schema:additionalProperty").EnumerateArray().Select(p => $"{Text(p, "schema:name")}={Text(p, "schema:value")}"));
        // Keys of a common property's value are prefixed names or begin with @ (section 5.8).
        Assert.All(
            root.GetProperty("schema:additionalProperty").EnumerateArray().SelectMany(p => p.EnumerateObject()),
            m => Assert.True(m.Name[0] == '@' || m.Name.Contains(':', StringComparison.Ordinal), m.Name));
    }

    [Fact]
    public void Apostrophes_that_were_put_in_are_said()
    {
        Assert.Contains("apostrophe", Assert.Single(Comments(Tables.OfTexts(["=1"]))), StringComparison.Ordinal);
        Assert.Empty(Comments(Tables.OfTexts(["1"])));
        // A heading of a station's name may be one too, and its title is what the header row holds.
        var table = new ExportTable("", [new("-1", "Station", "", "")], [], []);
        Assert.Single(Comments(table));
        Assert.Equal("'-1", Text(Written(table, "x").GetProperty("tableSchema").GetProperty("columns")[0], "titles"));
    }

    [Theory]
    [InlineData("N 1/ä", "N%201%2F%C3%A4")]
    [InlineData("_x", "c_x")]
    [InlineData("-1", "c_1")]
    [InlineData("S-1_2", "S_1_2")]
    public void A_name_has_letters_digits_underscores_and_escapes_alone(string key, string name)
    {
        var column = Written(new ExportTable("", [new(key, "", "", "")], [], []), "x").GetProperty("tableSchema").GetProperty("columns")[0];

        Assert.Equal(name, Text(column, "name"));
    }

    [Fact]
    public void Names_are_there_once()
    {
        var root = Written(new ExportTable("", [new("a-b", "", "", ""), new("a_b", "", "", "")], [], []), "x");

        Assert.Equal(["a_b", "a_b_"], root.GetProperty("tableSchema").GetProperty("columns").EnumerateArray().Select(c => Text(c, "name")));
    }

    private static IEnumerable<string?> Comments(ExportTable table) =>
        Written(table, "x").GetProperty("rdfs:comment").EnumerateArray().Select(n => n.GetString());

    private static string? Text(JsonElement element, string name) => element.GetProperty(name).GetString();

    private static JsonElement Written(ExportTable table, string url)
    {
        using var content = new MemoryStream();
        CsvMetadata.Write(table, url, content);
        return JsonDocument.Parse(Encoding.UTF8.GetString(content.ToArray())).RootElement;
    }
}
