#!/usr/bin/env python3
"""Makes photo_with_place.jpg: a JPEG as a phone's camera writes it, with the place, the device and the time in
its EXIF block and the picture lying on its side. Made with Pillow 13.0.0; every figure is invented.

    python3 photo_with_place.py
"""
from pathlib import Path

from PIL import ExifTags, Image, ImageDraw
from PIL.TiffImagePlugin import IFDRational

picture = Image.new("RGB", (2400, 1800), "#d8d2c0")
pen = ImageDraw.Draw(picture)
pen.ellipse((500, 450, 1900, 1350), fill="#fffdf8", outline="#505c58", width=24)
pen.polygon(((800, 900), (1450, 720), (1600, 900), (1450, 1080)), fill="#c98e5a")
# The top left corner as the camera saw it: where it comes out tells whether the turning was followed.
pen.rectangle((0, 0, 400, 300), fill="#0d5650")

exif = Image.Exif()
exif[ExifTags.Base.Orientation] = 6
exif[ExifTags.Base.Make] = "Invented"
exif[ExifTags.Base.Model] = "Bench 1"
exif[ExifTags.Base.DateTime] = "2026:03:09 19:42:00"
place = exif.get_ifd(ExifTags.IFD.GPSInfo)
degrees = lambda d, m, s: (IFDRational(d), IFDRational(m), IFDRational(s))
place[ExifTags.GPS.GPSLatitudeRef] = "N"
place[ExifTags.GPS.GPSLatitude] = degrees(12, 34, 56)
place[ExifTags.GPS.GPSLongitudeRef] = "W"
place[ExifTags.GPS.GPSLongitude] = degrees(65, 43, 21)
picture.save(Path(__file__).with_name("photo_with_place.jpg"), quality=80, exif=exif)
