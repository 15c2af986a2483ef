using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Texts in UTF-8 that were read as Windows-1252 and written down again.</summary>
public sealed class MojibakeTests
{
    private const string Wrong = "Art,Seriennummer,GrÃ¶ÃŸe,Standort,Bemerkung\nMikrofon,7,\"1/2\"\"\",Halle SÃ¼d,20 Â°C â€“ dÃ©jÃ\u00A0 vu\nMikrofon,8,,Halle 2,\n";

    // Bytes of UTF-8 as Windows-1252 shows them (code page 1252, best fit of the Unicode Consortium): ö C3 B6, ß C3 9F, ü C3 BC, ° C2 B0,
    // – E2 80 93, é C3 A9, à C3 A0.
    [Fact]
    public void They_are_asked_about_once_a_file_and_mended_where_somebody_says_so()
    {
        var asked = Assert.Single(Take(Wrong).Report.Questions);

        Assert.Equal(("mojibake", 1, "'GrÃ¶ÃŸe' for 'Größe'"), (asked.Key, asked.Choices.Count - 1, asked.Examples[0]));
        var (report, register) = Take(Wrong, "mojibake := mend");
        Assert.True(report.IsGood, string.Join(' ', report.Outcomes.Select(o => o.Text)));
        var device = register.DeviceIds.Select(id => register.Device(id)!).Single(d => d.Serial == "7");
        Assert.Equal(("Halle Süd", 12.7, "20 °C – déjà vu"), (device.Place, device.Number(DeviceField.SizeMm), device.Notes[0].What.Text));
        Assert.Contains("signs of 2 rows", Assert.Single(report.Notices, n => n.Contains("encoding", StringComparison.Ordinal)),
            StringComparison.Ordinal);
    }

    [Fact]
    public void They_are_taken_as_they_stand_where_somebody_says_so()
    {
        var (report, register) = Take("Kind,Serial,Place\nmic,7,Halle SÃ¼d\n", "mojibake := keep");

        Assert.True(report.IsGood);
        Assert.Equal("Halle SÃ¼d", register.Device(Assert.Single(register.DeviceIds))!.Place);
    }

    [Fact]
    public void A_text_that_was_read_wrongly_twice_is_mended_whole()
    {
        var (_, register) = Take("Kind,Serial,Place\nmic,7,Halle SÃƒÂ¼d 5 µm\n", "mojibake := mend");

        Assert.Equal("Halle Süd 5 µm", register.Device(Assert.Single(register.DeviceIds))!.Place);
    }

    [Theory]
    [InlineData("Größe déjà – 5 °C ±2 µm")]
    [InlineData("SÃO JOÃO")]
    [InlineData("„CAFÉ“ CAFÉ”")] // É” would be ɔ
    [InlineData("Ångström Ä–B Île")]
    [InlineData("Зал 2")]
    [InlineData("ホール")]
    public void Texts_with_signs_of_their_own_are_not_asked_about(string place)
    {
        var (report, register) = Take($"Kind,Serial,Place\nmic,7,{place}\n");

        Assert.True(report.IsGood);
        Assert.Equal(place, register.Device(Assert.Single(register.DeviceIds))!.Place);
    }

    private static (FileReport Report, Register.Register Register) Take(string text, string rules = "")
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), new(2026, 6, 1));
        var report = session.Take(
            new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", ImportMapping.Read(new StringReader(rules), "rules"));
        return (report, FactList.RegisterOf(session.Facts));
    }
}
