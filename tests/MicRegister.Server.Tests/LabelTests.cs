using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

public sealed class LabelTests
{
    [Fact]
    public async Task Labels_are_drawn_bound_and_printed_for_devices_that_lack_one_and_found_again()
    {
        using TemporaryFolder folder = new(), register = new();
        await DemoFolder.CopyTo(register.Path);
        string[] common = ["labels", "--layout", "sheet-3x8", "--kind", "ground-plate", "--data", register.Path, "--out", folder.At("plates.pdf")];

        Assert.Contains("--missing draws and binds codes", (await CommandLine.Run(common)).Error, StringComparison.Ordinal);
        var (exit, said, _) = await CommandLine.Run([.. common, "--missing", "--first", "4"]);
        Assert.Equal(0, exit);
        Assert.StartsWith("73 labels on 4 pages", said, StringComparison.Ordinal);
        Assert.True(new FileInfo(folder.At("plates.pdf")).Length > 10_000);
        Assert.Contains("None of them lacks a label", (await CommandLine.Run([.. common, "--missing"])).Error, StringComparison.Ordinal);
        Assert.StartsWith("73 labels", (await CommandLine.Run(common)).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("allowed are case-card, flag-capsule", "--layout", "nothing", "--out", "x.pdf", "--blank", "1")]
    [InlineData("ends with .pdf, .svg or .png", "--layout", "tape-12", "--out", "x.doc", "--blank", "1")]
    [InlineData("from 1 to 24", "--layout", "sheet-3x8", "--out", "x.pdf", "--blank", "1", "--first", "25")]
    [InlineData("Take PDF", "--layout", "tape-12", "--out", "x.svg", "--blank", "2")]
    [InlineData("allowed are microphone", "--layout", "tape-12", "--out", "x.pdf", "--kind", "teapot")]
    [InlineData("Give --blank", "--layout", "tape-12", "--out", "x.pdf")]
    public async Task What_cannot_be_printed_is_said(string says, params string[] args)
    {
        var (exit, _, error) = await CommandLine.Run(["labels", .. args]);

        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_leads_to_its_device_and_a_mistyped_one_is_told_so()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.First(id => server.Live.Now.Device(id)!.Serial == "41001");
        var code = MicRegister.Register.Labels.LabelCode.Draw(n => [.. Enumerable.Range(0, n).Select(i => (byte)(i * 5))]);

        Assert.Empty((await server.Get($"/api/labels/{code}"))["bound"]!.AsArray());
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/devices/{device}/labels", new { code = code.Spoken.ToLowerInvariant() })).Status);
        Assert.Equal(device, (string)(await server.Get($"/api/labels/{code}"))["bound"]![0]!["device"]!);
        Assert.Equal(409, (await server.Send(HttpMethod.Post, $"/api/devices/{server.Live.Now.DeviceIds.First(id => id != device)}/labels", new { code = code.Text })).Status);
        var (status, problem, _) = await server.Send(HttpMethod.Post, $"/api/devices/{device}/labels", new { code = code.Text[..8] + (code.Text[8] == '7' ? '8' : '7') });
        Assert.Equal(422, status);
        Assert.Contains("misread or mistyped", (string)problem!["detail"]!, StringComparison.Ordinal);
        // The address in a printed code leads to the same page, in whichever case it was printed.
        Assert.Contains("41001", await server.Client.GetStringAsync($"/L/{code}", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
