using System.IO.Compression;
using MicRegister.Server.Outdoors;
using Microsoft.Extensions.FileProviders;

namespace MicRegister.Server.Tests;

public sealed class FieldFilesTests
{
    private static string Root => Path.Combine(Source(), "src", "MicRegister.Server", "wwwroot");

    [Fact]
    public void All_that_a_phone_loads_beside_the_decoder_is_small()
    {
        // As it is served where the program is published: each file by Brotli.
        long total = 0;
        foreach (var file in Directory.GetFiles(Path.Combine(Root, "field"), "*", SearchOption.AllDirectories).Where(f => !f.Contains("/vendor/", StringComparison.Ordinal) && Path.GetExtension(f) is ".js" or ".css" or ".html" or ".webmanifest" or ".svg" && !f.Contains("/vendor/", StringComparison.Ordinal)))
        {
            using var small = new MemoryStream();
            using (var brotli = new BrotliStream(small, CompressionLevel.SmallestSize, leaveOpen: true)) brotli.Write(File.ReadAllBytes(file));
            total += small.Length;
        }
        Assert.InRange(total, 20_000, 60 * 1024);
    }

    [Fact]
    public void The_workers_version_changes_with_any_file()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.At("field"));
        File.WriteAllText(folder.At("field/sw-body.js"), "// body");
        File.WriteAllText(folder.At("field/index.html"), "<h1>1</h1>");
        File.WriteAllText(folder.At("field/app.js"), "1");
        using var provider = new PhysicalFileProvider(folder.Path);

        var first = FieldFiles.Read(provider);
        Assert.Equal(first, FieldFiles.Read(provider));
        Assert.Contains("const FILES = [\"/field/\",\"/field/app.js\"];", first.Script, StringComparison.Ordinal);
        File.WriteAllText(folder.At("field/app.js"), "2");

        Assert.NotEqual(first.Version, FieldFiles.Read(provider).Version);
    }

    [Fact]
    public void Vendored_files_are_those_that_their_list_names()
    {
        var list = File.ReadAllText(Path.Combine(Root, "field", "vendor", "README.md"));
        foreach (var file in new[] { "zxing-reader.js", "zxing_reader.wasm" })
            Assert.Contains($"`{file}`", list.Split('\n').Single(l => l.Contains(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(Path.Combine(Root, "field", "vendor", file)))), StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    private static string Source()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "MicRegister.sln"))) return folder.FullName;
        }
        throw new InvalidOperationException("The tests run from within the checkout.");
    }
}
