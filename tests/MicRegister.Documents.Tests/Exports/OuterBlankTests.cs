using System.Text;
using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>
/// Blanks at the ends of a text survive readers that trim what is not quoted (RFC 4180, 2.4: spaces are part of a field; seen in two
/// copies).
/// </summary>
public sealed class OuterBlankTests
{
    [Theory]
    [InlineData(" before", "\" before\"")]
    [InlineData("after ", "\"after \"")]
    [InlineData(" both ", "\" both \"")]
    [InlineData(" ", "\" \"")]
    [InlineData("\u00A0hard blank", "\"\u00A0hard blank\"")]
    [InlineData("hard blank\u00A0", "\"hard blank\u00A0\"")]
    [InlineData("two words", "two words")]
    [InlineData("a", "a")]
    [InlineData("", "")]
    [InlineData("a,b", "\"a,b\"")]
    [InlineData("a;b", "\"a;b\"")]
    [InlineData("a\tb", "\"a\tb\"")]
    [InlineData("a\"b", "\"a\"\"b\"")]
    [InlineData("a\rb", "\"a\rb\"")]
    [InlineData("a\nb", "\"a\nb\"")]
    public void A_text_is_quoted_where_it_begins_or_ends_with_a_blank_or_holds_what_ends_a_cell(string text, string written)
    {
        using var content = new MemoryStream();

        ExportTable table = new("", [new("first", "", "", ""), new("second", "", "", "")], [[ExportCell.Of(text), ExportCell.Of("x")]], []);
        CsvExport.Write(table, content);

        Assert.Equal($"first,second\r\n{written},x\r\n", Encoding.UTF8.GetString(content.ToArray()));
    }
}
