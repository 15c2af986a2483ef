using System.Text.Json;
using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

public sealed class JsonExportTests
{
    [Fact]
    public void A_table_is_read_by_another_program()
    {
        using var json = Written(Tables.Of(
            [ExportCell.Of("41001"), ExportCell.Of(1e-7), ExportCell.Of(new DateOnly(2026, 5, 4))],
            [ExportCell.Of("41002"), ExportCell.Nothing, ExportCell.Nothing]));
        var root = json.RootElement;

        Assert.Equal(["title", "columns", "rows", "provenance"], root.EnumerateObject().Select(p => p.Name));
        Assert.Equal("Microphones of Quillmere", root.GetProperty("title").GetString());
        Assert.Equal(["key=sensitivity-v-per-pa", "label=Sensitivity", "unit=V/Pa", "meaning=Open-circuit sensitivity at 250 Hz."], root.GetProperty("columns")[1].EnumerateObject().Select(p => $"{p.Name}={p.Value}"));
        Assert.Equal(1e-7, root.GetProperty("rows")[0].GetProperty("sensitivity-v-per-pa").GetDouble()); // exact: the shortest form that reads back
        Assert.Equal("2026-05-04", root.GetProperty("rows")[0].GetProperty("calibrated-on").GetString());
        // A cell with nothing in it is left out.
        Assert.Equal(["serial"], root.GetProperty("rows")[1].EnumerateObject().Select(p => p.Name));
        Assert.Equal(["register=quillmere", "sequence=4711", "note==1"], root.GetProperty("provenance").EnumerateObject().Select(p => $"{p.Name}={p.Value}"));
    }

    [Fact]
    public void Every_text_comes_back_as_it_was()
    {
        string[] texts = [.. Tables.Injections, .. Tables.Harmless, "\\", "\\u0041", "\b\f\u007F\u0085\u2028\u2029", "</script>", "🎤"];

        using var json = Written(Tables.OfTexts(texts));

        Assert.Equal(texts, json.RootElement.GetProperty("rows").EnumerateArray().Select(r => r.GetProperty("serial").GetString()!));
        Assert.All(json.RootElement.GetProperty("rows").EnumerateArray(), r => Assert.Equal(JsonValueKind.Number, r.GetProperty("sensitivity-v-per-pa").ValueKind));
    }

    [Fact]
    public void A_table_without_rows_has_an_empty_list()
    {
        using var json = Written(Tables.Of());

        Assert.Equal(0, json.RootElement.GetProperty("rows").GetArrayLength());
    }

    private static JsonDocument Written(ExportTable table)
    {
        using var content = new MemoryStream();
        JsonExport.Write(table, content);
        return JsonDocument.Parse(content.ToArray());
    }
}
