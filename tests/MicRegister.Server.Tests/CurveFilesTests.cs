using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Documents.Tests.DigitalCertificates;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

/// <summary>Curve files through the doors of programs: what is asked, and what is stored once it was answered.</summary>
public sealed class CurveFilesTests
{
    private const string Correction = "Frequency [Hz];Correction to be added\n250;0\n1000;-0.2\n8000;1.5\n";
    private const string TwoDevices = "Frequency [Hz];41001 [dB];41002 [dB];SN 99999 [dB]\n100;0.1;0.2;0.3\n250;0;0;0\n1000;-0.1;0.4;1\n";

    [Fact]
    public async Task What_a_file_leaves_open_is_a_problem_with_columns_and_choices()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        var (status, problem) = await Send(server, "/api/curves?name=c.csv", Correction);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal("Not clear", (string)problem["title"]!);
        Assert.Equal(["hz", null], problem["columns"]!.AsArray().Select(c => (string?)c!["meaning"]));
        var question = Assert.Single(problem["questions"]!.AsArray())!;
        Assert.Equal([2], question["columns"]!.AsArray().Select(c => (int)c!));
        Assert.Contains("correction", question["choices"]!.AsArray().Select(c => (string)c!["key"]!));

        var (answered, view) = await Send(server, "/api/curves?name=c.csv&column=2=correction", Correction);
        Assert.Equal(HttpStatusCode.OK, answered);
        Assert.Equal([0, 0.2, -1.5], view["curves"]![0]!["points"]!.AsArray().Select(p => (double)p!["levelDb"]!));
        Assert.Contains(view["notes"]!.AsArray(), n => ((string)n!).Contains("sign turned", StringComparison.Ordinal));
        Assert.Empty(view["stored"]!.AsArray());
    }

    [Fact]
    public async Task One_curve_a_device_is_stored_and_read_back()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        var (status, view) = await Send(server, "/api/curves?name=c.csv&store=true&day=2026-07-01&field=free-field&angle=0", TwoDevices);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(["41001", "41002", "99999"], view["curves"]!.AsArray().Select(c => (string)c!["serial"]!));
        Assert.Contains(view["notes"]!.AsArray(), n => ((string)n!).StartsWith("No device is known as 99999", StringComparison.Ordinal));
        var second = (string)view["curves"]![1]!["device"]!;
        var stored = server.Live.Now.Device(second)!.Certificates[^1];
        Assert.Equal(
            ("response", "free-field", 0.0, 250.0),
            (stored.Issued.Quantity, stored.Issued.Field!, stored.Issued.AngleDeg!.Value, stored.Issued.FrequencyHz!.Value));

        // What is stored is read, drawn and written again.
        var curve = await server.Get($"/api/certificates/{stored.Fact}/curve");
        Assert.Equal([0.2, 0, 0.4], curve["points"]!.AsArray().Select(p => (double)p!["levelDb"]!));
        var written = await server.Client.GetStringAsync($"/api/certificates/{stored.Fact}/curve.csv", TestContext.Current.CancellationToken);
        var (again, read) = await Send(server, $"/api/curves?name=again.csv&device={second}", written);
        Assert.Equal(HttpStatusCode.OK, again);
        Assert.Equal(curve["points"]!.ToJsonString(), read["curves"]![0]!["points"]!.ToJsonString());
    }

    [Fact]
    public async Task A_sensitivity_is_held_against_the_certificate()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.Select(id => server.Live.Now.Device(id)!).First(d => d.Serial == "41001");

        var (_, view) = await Send(server, $"/api/curves?device={device.Id}", "Hz;dB re 1 V/Pa\n250;-20\n1000;-20.5\n");

        Assert.Equal([0, -0.5], view["curves"]![0]!["points"]!.AsArray().Select(p => (double)p!["levelDb"]!));
        Assert.Matches("−20.000 dB re 1 V/Pa at 250 Hz lies \\+1[0-9.]+ dB from the certificate of", (string)view["curves"]![0]!["beside"]!);
    }

    [Theory]
    [InlineData("# Serial number: 41002\n")]
    [InlineData("Microphone, S/N 41002, at 23 °C\n")]
    [InlineData("Seriennummer;41002\n")]
    public async Task Another_serial_number_beside_a_table_is_asked_and_settled_by_an_answer_alone(string line)
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.Select(id => server.Live.Now.Device(id)!).First(d => d.Serial == "41001");
        var text = line + "Hz;Level [dB];U [dB]\n250;0;0.1\n1000;0.2;0.1\n";
        var address = $"/api/curves?name=c.csv&store=true&day=2026-07-01&device={device.Id}";

        var (status, problem) = await Send(server, address, text);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "Not clear"), (status, (string)problem["title"]!));
        Assert.Contains("The file states the serial number 41002, the device has 41001.", (string)problem["detail"]!, StringComparison.Ordinal);
        Assert.Equal("serial", (string)Assert.Single(problem["questions"]!.AsArray())!["asks"]!);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Send(server, address + "&serial=41003", text)).Status);

        var (settled, view) = await Send(server, address + "&serial=41002", text);
        Assert.Equal(HttpStatusCode.OK, settled);
        Assert.Contains(view["notes"]!.AsArray(), n => ((string)n!).EndsWith("all the same.", StringComparison.Ordinal));
        // What was answered is kept with the curve.
        var stored = server.Live.Now.Device(device.Id)!.Certificates[^1].Issued.Curve!;
        using var content = new StreamReader(server.Live.Log.OpenAttachment(stored)!);
        Assert.Contains("# serial=41002", await content.ReadToEndAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("# Serial number: 41001\n", 0)]
    [InlineData("# Calibrator serial number 777; microphone serial number 41001\n", 0)]
    [InlineData("# measured in May\n", 1)]
    [InlineData("# Preamplifier S/N 99999\n", 1)]
    public async Task The_same_serial_number_passes_and_a_missing_one_is_said(string line, int said)
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.Select(id => server.Live.Now.Device(id)!).First(d => d.Serial == "41001");

        var (status, view) = await Send(server, $"/api/curves?name=c.csv&device={device.Id}", line + "Hz;Level [dB]\n250;0\n1000;0.2\n");

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(said, view["notes"]!.AsArray().Count(n => ((string)n!).StartsWith("The file states no serial number", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_certificate_is_not_stored_with_a_curve_that_is_not_clear()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.First(id => server.Live.Now.Device(id)!.Serial == "41001");
        async Task<(HttpStatusCode, JsonNode)> Certificate(string table)
        {
            var sha = (string)(await Send(server, "/api/attachments", table)).Body["sha256"]!;
            return await Send(server, "/api/certificates", new JsonObject
            {
                ["devices"] = new JsonArray(device),
                ["day"] = "2026-07-01",
                ["issued"] = new JsonObject
                {
                    ["quantity"] = "response",
                    ["results"] = new JsonArray(new JsonObject { ["state"] = "as-found-and-left", ["value"] = 0, ["unit"] = "dB" }),
                    ["curve"] = sha,
                },
            }.ToJsonString(), "application/json");
        }

        var (status, problem) = await Certificate(Correction);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "Not clear"), (status, (string)problem["title"]!));
        Assert.Equal("Not clear", (string)(await Certificate("250,0.1,0.05\n1000,0.2,0.05\n")).Item2["title"]!);
        Assert.Equal("Not accepted", (string)(await Certificate("Hz;dB re 1 V/Pa\n250;-26\n")).Item2["title"]!);
        Assert.Contains("The file states the serial number 41002",
            (string)(await Certificate("# Serial no. 41002\nHz;dB;U\n250;0;0.05\n1000;0.1;0.05\n")).Item2["detail"]!, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await Certificate("Hz;dB;U\n250;0;0.05\n1000;0.1;0.05\n")).Item1);
    }

    [Theory]
    [InlineData("?column=2=x", Correction, "allowed are hz")]
    [InlineData("?marks=comma", Correction, "allowed are decimal")]
    [InlineData("?referenceHz=0", Correction, "allowed is a number from 1")]
    [InlineData("?store=true", TwoDevices, "Day: it is needed")]
    [InlineData("?store=true&day=2026-07-01&column=2=correction", Correction, "names no device that is known")]
    [InlineData("?store=true&day=2026-07-01&referenceHz=20000", TwoDevices, "the curve goes from 100 Hz to 1000 Hz")]
    [InlineData("?store=true&day=2026-07-01&field=near", TwoDevices, "Field 'near': allowed are")]
    [InlineData("?store=true&day=2026-07-01&field=pressure", "Hz;41001 free-field dB\n250;1\n500;1\n", "What is column 2")]
    [InlineData("", "250\n", "holds no point")]
    public async Task What_cannot_be_taken_is_told(string query, string text, string says)
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (status, problem) = await Send(server, "/api/curves" + query, text);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains(says, (string)problem["detail"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_asks_stores_and_reads()
    {
        using TemporaryFolder files = new(), register = new();
        await DemoFolder.CopyTo(register.Path);
        async Task<string> File(string name, string text)
        {
            var path = Path.Combine(files.Path, name);
            await System.IO.File.WriteAllTextAsync(path, text, TestContext.Current.CancellationToken);
            return path;
        }

        var correction = await File("c.csv", Correction);
        var asked = await CommandLine.Run("curve", correction, "--data", register.Path);
        Assert.Equal(2, asked.Exit);
        Assert.Contains("--column 2=correction", asked.Error, StringComparison.Ordinal);
        var thousands = await CommandLine.Run("curve", await File("t.csv", "Hz;dB\n1,250;0,1\n1,600;0,2\n"), "--data", register.Path);
        Assert.Contains("--marks thousands: '1,250' is 1250", thousands.Error, StringComparison.Ordinal);

        var shown = await CommandLine.Run("curve", correction, "--data", register.Path, "--column", "2=correction", "--device", "41001");
        Assert.Equal(0, shown.Exit);
        Assert.Contains("Nothing was stored.", shown.Out, StringComparison.Ordinal);
        var other = await File("o.csv", "# Serial number 41002\nHz;dB\n250;0\n1000;0.1\n");
        var whose = await CommandLine.Run("curve", other, "--data", register.Path, "--device", "41001");
        Assert.Equal(2, whose.Exit);
        Assert.Contains("--serial 41002: it is, although the file states 41002", whose.Error, StringComparison.Ordinal);
        Assert.Equal(0, (await CommandLine.Run("curve", other, "--data", register.Path, "--device", "41001", "--serial", "41002")).Exit);
        var stored = await CommandLine.Run(
            "curve", await File("two.csv", TwoDevices), "--data", register.Path, "--store", "--day", "2026-07-01", "--today", "2026-08-03");
        Assert.Equal((0, ""), (stored.Exit, stored.Error));
        Assert.Contains("2 certificates were stored.", stored.Out, StringComparison.Ordinal);
        Assert.Contains("No device is known as 99999", stored.Out, StringComparison.Ordinal);

        var digital = await CommandLine.Run("dcc", await File("d.xml", InventedCertificate.Text(
            "3.3.0", @"<si:real><si:value>0.0125</si:value><si:unit>\volt\pascal\tothe{-1}</si:unit></si:real>")));
        Assert.Equal(0, digital.Exit);
        Assert.Contains("(−38.062 dB re 1 V/Pa); U not read: none was found", digital.Out, StringComparison.Ordinal);
        Assert.Equal(2, (await CommandLine.Run("dcc", correction)).Exit);
    }

    [Fact]
    public async Task A_digital_certificate_is_read()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (status, read) = await Send(server, "/api/digital-certificates?name=d.xml", InventedCertificate.Text(
            "3.3.0", @"<si:real><si:value>0.0125</si:value><si:unit>\volt\pascal\tothe{-1}</si:unit></si:real>"));

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Null(read["quantities"]![0]!["values"]![0]!["expanded"]);
        Assert.StartsWith("U not read", (string)read["quantities"]![0]!["values"]![0]!["remark"]!, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Send(server, "/api/digital-certificates", "<a/>")).Status);
    }

    private static async Task<(HttpStatusCode Status, JsonNode Body)> Send(
        ServerUnderTest server, string path, string text, string type = "text/plain")
    {
        using var content = new StringContent(text, Encoding.UTF8, type);
        var answer = await server.Client.PostAsync(path, content, TestContext.Current.CancellationToken);
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!);
    }
}
